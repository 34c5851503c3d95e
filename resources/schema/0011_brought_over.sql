-- What older records hold, brought over into the tables of 0010 and compared value by value. A database that begins here
-- holds nothing, so PostgreSQL needs none of this. It calls functions of the program itself
-- (core/storage/migration_functions): SQLite turns numbers into text with 15 digits, which loses some.

CREATE TEMPORARY TABLE visit_sets AS
SELECT visit, json_group_object(name, value) AS conditions
FROM (SELECT visit, name, value FROM visit_conditions ORDER BY visit, name) ordered
GROUP BY visit;

CREATE TEMPORARY TABLE finding_sets AS
SELECT finding, json_group_object(name, value) AS conditions
FROM (SELECT finding, name, value FROM finding_conditions ORDER BY finding, name) ordered
GROUP BY finding;

CREATE INDEX temp.visit_sets_visit ON visit_sets (visit);

CREATE INDEX temp.finding_sets_finding ON finding_sets (finding);

INSERT INTO condition_sets (key, digest, conditions)
SELECT ROW_NUMBER() OVER (ORDER BY conditions), digest(conditions), conditions
FROM (SELECT conditions FROM visit_sets UNION SELECT conditions FROM finding_sets) every;

CREATE INDEX temp_condition_sets ON condition_sets (conditions);

INSERT INTO forms_made (key, digest, document)
SELECT ROW_NUMBER() OVER (ORDER BY form_made), digest(form_made), form_made
FROM (SELECT DISTINCT form_made FROM visits WHERE form_made <> '') every;

CREATE TEMPORARY TABLE visit_keys (
    id TEXT NOT NULL PRIMARY KEY,
    key INTEGER NOT NULL
);

INSERT INTO visit_keys (id, key)
SELECT id, ROW_NUMBER() OVER (ORDER BY patient, day, series, version) FROM visits;

INSERT INTO new_visits (key, id, revision, series, version, patient, day, state, form, form_made, conditions,
    conditions_confirmed, author_name, author_role, author_registration, signed_at, amendment_reason)
SELECT own.key, visits.id, revision, firsts.key, version, patient, day, state, form,
       (SELECT forms_made.key FROM forms_made WHERE forms_made.document = visits.form_made),
       (SELECT condition_sets.key FROM visit_sets
        JOIN condition_sets ON condition_sets.conditions = visit_sets.conditions
        WHERE visit_sets.visit = visits.id),
       conditions_confirmed, author_name, author_role, author_registration, signed_at, amendment_reason
FROM visits
JOIN visit_keys own ON own.id = visits.id
JOIN visit_keys firsts ON firsts.id = visits.series
ORDER BY own.key;

INSERT INTO new_findings (visit, measure, side, position, state, number, unit, grade, choice, trials, reason,
    cap_reached, signs, note, taps, exceptions)
SELECT new_visits.key, counted(measure), side, position, findings.state, findings.number, unit, grade, choice,
       (SELECT number_list(trials.number, trials.value) FROM trials WHERE trials.finding = findings.id),
       reason, cap_reached, signs, note,
       (SELECT number_list(taps.number, taps.at_s) FROM taps WHERE taps.finding = findings.id),
       (SELECT condition_sets.key FROM finding_sets
        JOIN condition_sets ON condition_sets.conditions = finding_sets.conditions
        WHERE finding_sets.finding = findings.id)
FROM new_visits CROSS JOIN findings ON findings.visit = new_visits.id
ORDER BY new_visits.key, measure, side;

INSERT INTO new_visit_withdrawals (series, reason, author_name, author_role, author_registration, withdrawn_at)
SELECT visit_keys.key, reason, author_name, author_role, author_registration, withdrawn_at
FROM visit_withdrawals JOIN visit_keys ON visit_keys.id = visit_withdrawals.series;

INSERT INTO audit_people (key, who)
SELECT ROW_NUMBER() OVER (ORDER BY MIN(number)), who FROM audit_trail GROUP BY who;

INSERT INTO audit_records (key, record)
SELECT ROW_NUMBER() OVER (ORDER BY MIN(number)), record FROM audit_trail GROUP BY record;

INSERT INTO new_audit_trail (number, made_at, who, action, kind, record)
SELECT number, made_at, audit_people.key, action, kind, audit_records.key
FROM audit_trail
JOIN audit_people ON audit_people.who = audit_trail.who
JOIN audit_records ON audit_records.record = audit_trail.record
ORDER BY number;

INSERT INTO new_letters (id, revision, patient, visit, reference, state, recipient, copies_to, urgency, question, actions, history,
    interpretation, charts, author_name, author_role, author_registration, saved_at, signed_at, body, pdf, odt, language)
SELECT id, revision, patient, visit, reference, state, recipient, copies_to, urgency, question, actions, history,
       interpretation, charts, author_name, author_role, author_registration, saved_at, signed_at, body, pdf, odt, language
FROM letters;

-- What a SELECT of a migration finds is a value that did not come through; then nothing of it is kept.

SELECT visits.id FROM visits
LEFT JOIN new_visits ON new_visits.id = visits.id
LEFT JOIN new_visits firsts ON firsts.key = new_visits.series
LEFT JOIN forms_made ON forms_made.key = new_visits.form_made
WHERE (visits.revision, visits.series, visits.version, visits.patient, visits.day, visits.state, visits.form, visits.form_made,
       visits.conditions_confirmed, visits.author_name, visits.author_role, visits.author_registration,
       COALESCE(visits.signed_at, ''), visits.amendment_reason)
   IS DISTINCT FROM
      (new_visits.revision, firsts.id, new_visits.version, new_visits.patient, new_visits.day, new_visits.state,
       new_visits.form, COALESCE(forms_made.document, ''), new_visits.conditions_confirmed, new_visits.author_name,
       new_visits.author_role, new_visits.author_registration, COALESCE(new_visits.signed_at, ''),
       new_visits.amendment_reason);

SELECT visit_conditions.visit FROM visit_conditions
LEFT JOIN new_visits ON new_visits.id = visit_conditions.visit
LEFT JOIN condition_sets ON condition_sets.key = new_visits.conditions
WHERE json_extract(condition_sets.conditions, '$."' || name || '"') IS DISTINCT FROM value;

SELECT new_visits.id FROM new_visits LEFT JOIN condition_sets ON condition_sets.key = new_visits.conditions
WHERE (SELECT COUNT(*) FROM json_each(condition_sets.conditions))
   <> (SELECT COUNT(*) FROM visit_conditions WHERE visit_conditions.visit = new_visits.id);

SELECT findings.id FROM findings
LEFT JOIN new_visits ON new_visits.id = findings.visit
LEFT JOIN new_findings ON new_findings.visit = new_visits.key AND new_findings.measure = findings.measure
                      AND new_findings.side = findings.side
WHERE (counted(findings.position), findings.state, findings.number, findings.unit, findings.grade, findings.choice, findings.reason,
       findings.cap_reached, findings.signs, findings.note,
       (SELECT COUNT(*) FROM trials WHERE trials.finding = findings.id),
       (SELECT COUNT(*) FROM taps WHERE taps.finding = findings.id))
   IS DISTINCT FROM
      (new_findings.position, new_findings.state, new_findings.number, new_findings.unit, new_findings.grade,
       new_findings.choice, new_findings.reason, new_findings.cap_reached, new_findings.signs, new_findings.note,
       numbers_in(new_findings.trials), numbers_in(new_findings.taps));

SELECT new_findings.measure FROM new_findings JOIN new_visits ON new_visits.key = new_findings.visit
WHERE NOT EXISTS (SELECT 1 FROM findings WHERE findings.visit = new_visits.id AND findings.measure = new_findings.measure
                  AND findings.side = new_findings.side);

SELECT findings.id FROM trials
JOIN findings ON findings.id = trials.finding
JOIN new_visits ON new_visits.id = findings.visit
LEFT JOIN new_findings ON new_findings.visit = new_visits.key AND new_findings.measure = findings.measure
                      AND new_findings.side = findings.side
WHERE number_in(new_findings.trials, trials.number) IS DISTINCT FROM trials.value;

SELECT findings.id FROM taps
JOIN findings ON findings.id = taps.finding
JOIN new_visits ON new_visits.id = findings.visit
LEFT JOIN new_findings ON new_findings.visit = new_visits.key AND new_findings.measure = findings.measure
                      AND new_findings.side = findings.side
WHERE number_in(new_findings.taps, taps.number) IS DISTINCT FROM taps.at_s;

SELECT findings.id FROM finding_conditions
JOIN findings ON findings.id = finding_conditions.finding
JOIN new_visits ON new_visits.id = findings.visit
LEFT JOIN new_findings ON new_findings.visit = new_visits.key AND new_findings.measure = findings.measure
                      AND new_findings.side = findings.side
LEFT JOIN condition_sets ON condition_sets.key = new_findings.exceptions
WHERE json_extract(condition_sets.conditions, '$."' || name || '"') IS DISTINCT FROM value;

SELECT COUNT(*) FROM finding_conditions
HAVING COUNT(*) <> (SELECT COUNT(*) FROM new_findings
                    JOIN condition_sets ON condition_sets.key = new_findings.exceptions,
                         json_each(condition_sets.conditions));

SELECT visit_withdrawals.series FROM visit_withdrawals
LEFT JOIN new_visits ON new_visits.id = visit_withdrawals.series
LEFT JOIN new_visit_withdrawals ON new_visit_withdrawals.series = new_visits.key
WHERE (visit_withdrawals.reason, visit_withdrawals.author_name, visit_withdrawals.author_role,
       visit_withdrawals.author_registration, visit_withdrawals.withdrawn_at)
   IS DISTINCT FROM
      (new_visit_withdrawals.reason, new_visit_withdrawals.author_name, new_visit_withdrawals.author_role,
       new_visit_withdrawals.author_registration, new_visit_withdrawals.withdrawn_at);

SELECT audit_trail.number FROM audit_trail
LEFT JOIN new_audit_trail ON new_audit_trail.number = audit_trail.number
LEFT JOIN audit_people ON audit_people.key = new_audit_trail.who
LEFT JOIN audit_records ON audit_records.key = new_audit_trail.record
WHERE (audit_trail.made_at, audit_trail.who, audit_trail.action, audit_trail.kind, audit_trail.record)
   IS DISTINCT FROM
      (new_audit_trail.made_at, audit_people.who, new_audit_trail.action, new_audit_trail.kind, audit_records.record);

SELECT letters.id FROM letters LEFT JOIN new_letters ON new_letters.id = letters.id
WHERE (letters.revision, letters.patient, letters.visit, letters.reference, letters.state, letters.recipient,
       letters.copies_to, letters.urgency, letters.question, letters.actions, letters.history,
       letters.interpretation, letters.charts, letters.author_name, letters.author_role, letters.author_registration,
       letters.saved_at, letters.signed_at, letters.body, letters.pdf, letters.odt, letters.language)
   IS DISTINCT FROM
      (new_letters.revision, new_letters.patient, new_letters.visit, new_letters.reference, new_letters.state,
       new_letters.recipient, new_letters.copies_to, new_letters.urgency, new_letters.question, new_letters.actions,
       new_letters.history, new_letters.interpretation, new_letters.charts, new_letters.author_name,
       new_letters.author_role, new_letters.author_registration, new_letters.saved_at, new_letters.signed_at,
       new_letters.body, new_letters.pdf, new_letters.odt, new_letters.language);

SELECT COUNT(*) FROM visits
HAVING COUNT(*) <> (SELECT COUNT(*) FROM new_visits)
    OR (SELECT COUNT(*) FROM visit_withdrawals) <> (SELECT COUNT(*) FROM new_visit_withdrawals)
    OR (SELECT COUNT(*) FROM letters) <> (SELECT COUNT(*) FROM new_letters)
    OR (SELECT COUNT(*) FROM audit_trail) <> (SELECT COUNT(*) FROM new_audit_trail);

DROP INDEX temp_condition_sets;

DROP TABLE temp.visit_sets;

DROP TABLE temp.finding_sets;

DROP TABLE temp.visit_keys;
