#include "app/shell/about.h"

#include "app/widgets/question.h"

#include <QApplication>
#include <QDir>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

struct AboutWords {
    Q_DECLARE_TR_FUNCTIONS(Words)
};

void show(const QString& title, const QString& words, QWidget* window)
{
    widgets::Question dialog(title, words, AboutWords::tr("Close"), window);
    dialog.withoutRefusal();
    dialog.exec();
}

} // namespace

void showAbout(QWidget* window)
{
    show(
        AboutWords::tr("Aplomb %1").arg(QApplication::applicationVersion()),
        AboutWords::tr(
            "Findings of coordination, balance and walking, held against earlier ones by published "
            "measurement error.\n\n"
            "Aplomb decides nothing: it shows arithmetic and its source. It makes no diagnosis and does not "
            "replace clinical judgement. Local protocols and licensed practice come first. Tests of standing "
            "and walking can make people fall: stand ready to catch.\n\n"
            "Free software under the GNU General Public License, version 3 or later, without any warranty."),
        window);
}

void showKeyboard(QWidget* window)
{
    const QStringList lines = {
        AboutWords::tr(
            "Ctrl+K or Ctrl+F: find a patient or a test; F10: the menu; Ctrl+P: print what is shown"),
        AboutWords::tr(
            "In a table, a list, a field or the ribbon the Menu key or Shift+F10: what can be done "
            "there; Ctrl+C: copy the rows, or a chart"),
        AboutWords::tr("Alt and the letter that is underlined: the button, tab or field it stands in"),
        AboutWords::tr(
            "Ctrl+O: open other records; Ctrl+R, and F5 but in the examination: read again what is "
            "shown"),
        AboutWords::tr("Ctrl+0: patients"),
        AboutWords::tr("Ctrl+7: caseload; Ctrl+PgDown, Ctrl+PgUp: the next and the previous patient of it"),
        AboutWords::tr("Ctrl+8: forms and the clinic's own tests, thresholds and patterns"),
        AboutWords::tr("Ctrl+9: tests"),
        AboutWords::tr("Ctrl+N: new patient, from the list"),
        AboutWords::tr("Ctrl+1 to Ctrl+6: examination, change, trend, letters, red flags, patterns"),
        AboutWords::tr("Ctrl+Shift+N: new visit today; Ctrl+Alt+N: with another form"),
        AboutWords::tr("Ctrl+Shift+S: sign the visit, or the letter on its page"),
        AboutWords::tr("On the page of letters Ctrl+Shift+C: copy the letter"),
        AboutWords::tr("Ctrl+Z, Ctrl+Shift+Z or Ctrl+Y: undo and redo in a draft, of a patient's details and "
                       "of the clinic's own forms"),
        AboutWords::tr(
            "F6: the ribbon of visits, Escape: back; there Left and Right: this visit, with Shift: the "
            "reference visit, Delete: without one"),
        AboutWords::tr(
            "In the ribbon a letter (f: fall, r: relapse, Insert: any): an event on the day of this visit"),
        AboutWords::tr("In the table of changes Insert: the target of the test"),
        AboutWords::tr(
            "In the overview of the trend Return: the full chart, Escape: back; Space: tick several"),
        AboutWords::tr(
            "In a chart Left and Right: this visit, with Ctrl: read a visit; + and −: zoom, 0: the whole "
            "time, Alt+Left and Alt+Right: earlier and later"),
        QString(),
        AboutWords::tr("Tab: the next field; Return: the next test that is asked for each time and open"),
        AboutWords::tr("Ctrl+Up, Ctrl+Down: section; F9: fold it"),
        AboutWords::tr("u: unable; n: not attempted; d: did not wish; x: not applicable"),
        AboutWords::tr("c: cap reached; +: one more trial; Delete: clear; Space: stopwatch or counter"),
        AboutWords::tr(
            "While the stopwatch runs L: the time of a trial, and on for the next; Escape drops it"),
        AboutWords::tr(
            "In the tap counter: Space or Return taps, Tab goes on to the next field, Escape drops the run"),
        AboutWords::tr("In the step counter: Space or Return is a step, S one beside the line; Tab keeps the "
                       "count, Escape drops it"),
        AboutWords::tr("F1: how the test is done; Ctrl+F1: its handbook page; F2: note; F3: reason"),
        AboutWords::tr(
            "F4: conditions, F4 or Escape: back; Ctrl+Return: confirm them; F5: next test that is open; F7: "
            "one test at a time, Page Up and Page Down; F8: rest of the section done, as expected"),
        AboutWords::tr(
            "In the conditions, of what may have hindered: a digit or the first letter of the word; "
            "Delete takes it back"),
        QString(),
        AboutWords::tr("Ctrl+S: save what is edited; Escape: leave it"),
        AboutWords::tr(
            "In a form of the clinic's own: Alt+Up and Alt+Down move a test, Space ticks it as expected"),
        AboutWords::tr("Ctrl+Q or Ctrl+W: quit"),
    };
    show(AboutWords::tr("Keyboard"), lines.join(u'\n'), window);
}

void showJudging(QWidget* window)
{
    const QStringList lines = {
        AboutWords::tr(
            "Each result is judged by the best of four yardsticks, which is named with it: an error "
            "published "
            "for this population; the clinic's own error study; from four earlier comparable results on, the "
            "patient's own scatter from visit to visit; else its direction alone, by steps."),
        AboutWords::tr(
            "Thresholds stand at 95 %; one published at another confidence is converted and says so. A "
            "percentage is taken of the earlier of two results, or of their mean where the source measured "
            "it "
            "so; for the trend it is an error of the logarithm, so that it grows with the result."),
        AboutWords::tr("A row comes before others as measured between days where its source repeated the "
                       "test on another "
                       "day; where it does not say so, or repeated it in one session, it comes after."),
        AboutWords::tr(
            "Confirmed: still so, the same way, at the comparable visits until the interval has passed. It "
            "is "
            "seven days unless the population asks for more (common practice, no source): four weeks in "
            "parkinsonism, twelve in multiple sclerosis, ataxia and dementia."),
        AboutWords::tr(
            "Trend and reversal are looked at anew at every visit. Over the visits of a plan they share one "
            "chance of a false flag, which the clinic's details say; after it a new plan begins. From the "
            "fifth visit on the published error is drawn toward the patient's own scatter; both are shown."),
        AboutWords::tr(
            "Where the dominant hand is not recorded, the larger threshold of both hands is used."),
    };
    show(AboutWords::tr("How change is judged"), lines.join(u"\n\n"_s), window);
}

void showRecordsPlace(const QString& path, bool areSealed, QWidget* window)
{
    const QString words =
        areSealed ? AboutWords::tr(
                        "The file is sealed: only the password or the printed code opens it. The file of "
                        "keys beside it belongs to it; keep both together in every copy, and back them up "
                        "as your clinic's rules ask.")
                  : AboutWords::tr(
                        "The file is not sealed: only your account may read it here, but whoever gets hold "
                        "of it, or of the disk, can. Back it up as your clinic's rules ask.");
    show(AboutWords::tr("Where the records are"), QDir::toNativeSeparators(path) + u"\n\n"_s + words, window);
}

} // namespace shell
