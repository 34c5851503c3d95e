<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="en">
<context>
    <name>Words</name>
    <message numerus="yes">
        <source>%n finding(s)</source>
        <translation>
            <numerusform>%n finding</numerusform>
            <numerusform>%n findings</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>forms::FormPreview</name>
    <message numerus="yes">
        <source>%n test(s)</source>
        <translation>
            <numerusform>%n test</numerusform>
            <numerusform>%n tests</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>forms::MeasureEditor</name>
    <message numerus="yes">
        <source>Not saved yet: %n field(s) to correct.</source>
        <translation>
            <numerusform>Not saved yet: %n field to correct.</numerusform>
            <numerusform>Not saved yet: %n fields to correct.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>forms::ThresholdEditor</name>
    <message numerus="yes">
        <source>Not saved yet: %n field(s) to correct.</source>
        <translation>
            <numerusform>Not saved yet: %n field to correct.</numerusform>
            <numerusform>Not saved yet: %n fields to correct.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>patients::LookAlikePanel</name>
    <message numerus="yes">
        <source>and %n more</source>
        <translation>
            <numerusform>and %n more</numerusform>
            <numerusform>and %n more</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>patients::PatientForm</name>
    <message numerus="yes">
        <source>Not saved yet: %n field(s) to correct.</source>
        <translation>
            <numerusform>Not saved yet: %n field to correct.</numerusform>
            <numerusform>Not saved yet: %n fields to correct.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>patients::PatientsPage</name>
    <message numerus="yes">
        <source>%n patient(s)</source>
        <translation>
            <numerusform>%n patient</numerusform>
            <numerusform>%n patients</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>shell::VisitActions</name>
    <message numerus="yes">
        <source>%n finding(s) in it cannot be brought back.</source>
        <translation>
            <numerusform>%n finding in it cannot be brought back.</numerusform>
            <numerusform>%n findings in it cannot be brought back.</numerusform>
        </translation>
    </message>
</context>
</TS>
