#pragma once

#include <QStringList>

#include <vector>

namespace letters
{

/// Some words of a line in one weight.
struct WrittenRun {
    QString words;
    bool isBold = false;

    bool operator==(const WrittenRun&) const = default;
};

/// A line of what a clinician wrote: a paragraph, or an item of a list.
struct WrittenLine {
    enum class Kind { Paragraph, Bullet, Numbered };
    Kind kind = Kind::Paragraph;
    std::vector<WrittenRun> runs;

    QString words() const; ///< without weight
    bool operator==(const WrittenLine&) const = default;
};

/// What a clinician wrote, as it is stored: plain text with three marks of Markdown (RFC 7763). "- " and
/// "1. " begin an item of a list, numbered from 1 on in a row; **words** are bold where both marks touch
/// them; a backslash before * takes it as it is, as one before "- " or after "1" does at the beginning of a
/// line. All else is text, so that what was written before there were marks reads as it did.
std::vector<WrittenLine> writtenLines(const QString& stored);
/// The other way. What would be taken for a mark gets its backslash.
QString stored(const std::vector<WrittenLine>& lines);

/// The words alone, a paragraph a line.
QString wordsOf(const QString& stored);

/// The lines for a template, without empty ones at the ends; their marks are characters of private use, which
/// `withMarks` turns into elements once the template is filled.
QStringList marked(const QString& stored);
/// A page with b, and with ul and ol in the place of paragraphs in a row that are items; an item within other
/// words keeps its sign there.
QString withMarks(QString page);

} // namespace letters
