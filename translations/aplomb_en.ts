<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="en">
<context>
    <name>HappeningLane</name>
    <message numerus="yes">
        <source>%n event(s) on record, the newest first: %1.</source>
        <translation>
            <numerusform>%n event on record: %1.</numerusform>
            <numerusform>%n events on record, the newest first: %1.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>LetterBatch</name>
    <message numerus="yes">
        <source>%1 of %n letter(s) written to %2</source>
        <translation>
            <numerusform>%1 of %n letter written to %2</numerusform>
            <numerusform>%1 of %n letters written to %2</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Stopped before %n patient(s).</source>
        <translation>
            <numerusform>Stopped before %n patient.</numerusform>
            <numerusform>Stopped before %n patients.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>Words</name>
    <message numerus="yes">
        <source>%n finding(s)</source>
        <translation>
            <numerusform>%n finding</numerusform>
            <numerusform>%n findings</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n finding(s): %1 to %2</source>
        <translation>
            <numerusform>%n finding: %1 to %2</numerusform>
            <numerusform>%n findings: %1 to %2</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n finding(s) done and as expected: %1 to %2</source>
        <translation>
            <numerusform>%n finding done and as expected: %1 to %2</numerusform>
            <numerusform>%n findings done and as expected: %1 to %2</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n red flag(s)</source>
        <translation>
            <numerusform>%n red flag</numerusform>
            <numerusform>%n red flags</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>caseload::CaseTable</name>
    <message numerus="yes">
        <source>overdue, %n day(s)</source>
        <translation>
            <numerusform>overdue, %n day</numerusform>
            <numerusform>overdue, %n days</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>caseload::CaseloadPage</name>
    <message numerus="yes">
        <source>%n patient(s)</source>
        <translation>
            <numerusform>%n patient</numerusform>
            <numerusform>%n patients</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Working out %n patient(s) …</source>
        <translation>
            <numerusform>Working out %n patient …</numerusform>
            <numerusform>Working out %n patients …</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n patient(s) not worked out</source>
        <translation>
            <numerusform>%n patient not worked out</numerusform>
            <numerusform>%n patients not worked out</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 of %n patient(s)</source>
        <translation>
            <numerusform>%1 of %n patient</numerusform>
            <numerusform>%1 of %n patients</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>changes::Arrangement</name>
    <message numerus="yes">
        <source>%n test(s) as before</source>
        <translation>
            <numerusform>%n test as before</numerusform>
            <numerusform>%n tests as before</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>changes::ChangeModel</name>
    <message numerus="yes">
        <source>%n result(s)</source>
        <translation>
            <numerusform>%n result</numerusform>
            <numerusform>%n results</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>changes::ChangePage</name>
    <message numerus="yes">
        <source>Draft, %1 of %n test(s)</source>
        <translation>
            <numerusform>Draft, %1 of %n test</numerusform>
            <numerusform>Draft, %1 of %n tests</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>changes::CourseSection</name>
    <message numerus="yes">
        <source>%n comparable visit(s) since %1.</source>
        <translation>
            <numerusform>%n comparable visit since %1.</numerusform>
            <numerusform>%n comparable visits since %1.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>changes::Rows</name>
    <message numerus="yes">
        <source>own scatter, %n visit(s)</source>
        <translation>
            <numerusform>own scatter, %n visit</numerusform>
            <numerusform>own scatter, %n visits</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>importing::ImportWords</name>
    <message numerus="yes">
        <source>%n new visit(s) are marked as entered in error and stay readable.</source>
        <translation>
            <numerusform>%n new visit is marked as entered in error and stays readable.</numerusform>
            <numerusform>%n new visits are marked as entered in error and stay readable.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n visit(s) were amended to what they held before.</source>
        <translation>
            <numerusform>%n visit was amended to what it held before.</numerusform>
            <numerusform>%n visits were amended to what they held before.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n draft(s) hold again what they held before.</source>
        <translation>
            <numerusform>%n draft holds again what it held before.</numerusform>
            <numerusform>%n drafts hold again what they held before.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n new patient(s) stay in the list, because visits that were signed belong to them.</source>
        <translation>
            <numerusform>%n new patient stays in the list, because visits that were signed belong to them.</numerusform>
            <numerusform>%n new patients stay in the list, because visits that were signed belong to them.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>importing::PreviewWords</name>
    <message numerus="yes">
        <source>New visit with %n finding(s)</source>
        <translation>
            <numerusform>New visit with %n finding</numerusform>
            <numerusform>New visit with %n findings</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n patient(s)</source>
        <translation>
            <numerusform>%n patient</numerusform>
            <numerusform>%n patients</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n visit(s)</source>
        <translation>
            <numerusform>%n visit</numerusform>
            <numerusform>%n visits</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n visit(s) are new</source>
        <translation>
            <numerusform>%n visit is new</numerusform>
            <numerusform>%n visits are new</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n visit(s) change</source>
        <translation>
            <numerusform>%n visit changes</numerusform>
            <numerusform>%n visits change</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n line(s) are refused</source>
        <translation>
            <numerusform>%n line is refused</numerusform>
            <numerusform>%n lines are refused</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n fault(s) refuse the bundle</source>
        <translation>
            <numerusform>%n fault refuses the bundle</numerusform>
            <numerusform>%n faults refuse the bundle</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n resource(s) are left out</source>
        <translation>
            <numerusform>%n resource is left out</numerusform>
            <numerusform>%n resources are left out</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>own::FormPreview</name>
    <message numerus="yes">
        <source>%n test(s)</source>
        <translation>
            <numerusform>%n test</numerusform>
            <numerusform>%n tests</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>own::MeasureEditor</name>
    <message numerus="yes">
        <source>Not saved yet: %n field(s) to correct.</source>
        <translation>
            <numerusform>Not saved yet: %n field to correct.</numerusform>
            <numerusform>Not saved yet: %n fields to correct.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>own::OwnEditWords</name>
    <message numerus="yes">
        <source>%n entry(s) of the clinic&apos;s own</source>
        <translation>
            <numerusform>%n entry of the clinic&apos;s own</numerusform>
            <numerusform>%n entries of the clinic&apos;s own</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>own::OwnError</name>
    <message numerus="yes">
        <source>Bland–Altman plot of %n person(s): %1, limits of agreement %2 to %3.</source>
        <translation>
            <numerusform>Bland–Altman plot of %n person: %1, limits of agreement %2 to %3.</numerusform>
            <numerusform>Bland–Altman plot of %n people: %1, limits of agreement %2 to %3.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Plot of %n person(s): each of %1 trials less the person&apos;s mean, against that mean.</source>
        <translation>
            <numerusform>Plot of %n person: each of %1 trials less the person&apos;s mean, against that mean.</numerusform>
            <numerusform>Plot of %n people: each of %1 trials less the person&apos;s mean, against that mean.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>own::OwnErrorWords</name>
    <message numerus="yes">
        <source>Fewer than %n person(s): it may not yet stand in for a published row.</source>
        <translation>
            <numerusform>Fewer than %n person: it may not yet stand in for a published row.</numerusform>
            <numerusform>Fewer than %n people: it may not yet stand in for a published row.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 to %n day(s) apart</source>
        <translation>
            <numerusform>%1 to %n day apart</numerusform>
            <numerusform>%1 to %n days apart</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>own::ThresholdEditor</name>
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
    <name>reading::RedFlagsPage</name>
    <message numerus="yes">
        <source>%n question(s) answered, the others not asked.</source>
        <translation>
            <numerusform>%n question answered, the others not asked.</numerusform>
            <numerusform>%n questions answered, the others not asked.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>shell::StatusLine</name>
    <message numerus="yes">
        <source>%1 · %2 of %n test(s)</source>
        <translation>
            <numerusform>%1 · %2 of %n test</numerusform>
            <numerusform>%1 · %2 of %n tests</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>trends::OverviewBar</name>
    <message numerus="yes">
        <source>S&amp;how %n chart(s)</source>
        <translation>
            <numerusform>S&amp;how %n chart</numerusform>
            <numerusform>S&amp;how %n charts</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>trends::OverviewModel</name>
    <message numerus="yes">
        <source>%n result(s)</source>
        <translation>
            <numerusform>%n result</numerusform>
            <numerusform>%n results</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>visits::StepBar</name>
    <message numerus="yes">
        <source>%n test(s) open</source>
        <translation>
            <numerusform>%n test open</numerusform>
            <numerusform>%n tests open</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Test %1 of %2 · %n open</source>
        <translation>
            <numerusform>Test %1 of %2 · %n open</numerusform>
            <numerusform>Test %1 of %2 · %n open</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>widgets::LongWork</name>
    <message numerus="yes">
        <source>about %n minute(s) left</source>
        <translation>
            <numerusform>about %n minute left</numerusform>
            <numerusform>about %n minutes left</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>about %n second(s) left</source>
        <translation>
            <numerusform>about %n second left</numerusform>
            <numerusform>about %n seconds left</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>widgets::SummaryCard</name>
    <message numerus="yes">
        <source>%n row(s)</source>
        <translation>
            <numerusform>%n row</numerusform>
            <numerusform>%n rows</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>writing::BatchDialog</name>
    <message numerus="yes">
        <source>the %n patient(s) selected</source>
        <translation>
            <numerusform>the %n patient selected</numerusform>
            <numerusform>the %n patients selected</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>all %n patient(s) of the list</source>
        <translation>
            <numerusform>all %n patient of the list</numerusform>
            <numerusform>all %n patients of the list</numerusform>
        </translation>
    </message>
</context>
</TS>
