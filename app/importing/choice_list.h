#pragma once

#include <QWidget>

#include <optional>

class QLabel;
class QLineEdit;
class QListWidget;

namespace importing
{

/// A long list of which some are chosen: all of them until someone unticks one. What is typed narrows what is
/// shown, and with it what “All” and “None” are about.
class ChoiceList : public QWidget
{
    Q_OBJECT

public:
    /// `name` begins the object names of its parts.
    ChoiceList(const QString& label, const QString& find, const QString& name, QWidget* parent);

    void add(const QString& title, const QString& key);
    /// The keys of those that are ticked; empty where all are.
    std::optional<QStringList> chosen() const;
    bool isNoneChosen() const;
    /// "3 of 12", also of what is not shown.
    QString share() const;

Q_SIGNALS:
    void changed();

private:
    void narrow(const QString& typed);
    void tick(bool isTicked);
    void count();

    QLineEdit* m_find;
    QListWidget* m_list;
    QLabel* m_count;
};

} // namespace importing
