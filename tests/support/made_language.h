#pragma once

#include <QStringList>

class QTextDocument;
class QWidget;

/// What the language made for tests (translations/texts.cpp) shows of a text: everything a person reads
/// stands between ⟦ ⟧ in letters that are not English.
namespace made_language
{

/// Faults of a text, a sentence each: English words in it, or pieces put beside each other that a translator
/// never saw as a whole. `data` are texts that stay as they are: names, notes, sources.
QStringList faultsOf(const QString& text, const QStringList& data);

/// The same of a document, run by run of one format: a label in quiet letters and what it labels are two
/// texts.
QStringList faultsOf(const QTextDocument& document, const QStringList& data);

/// The same of everything a screen shows or says to a screen reader, each with the object it stands in;
/// besides what is cut off, and what is not laid out from right to left.
QStringList faultsOf(QWidget& screen, const QStringList& data);

} // namespace made_language
