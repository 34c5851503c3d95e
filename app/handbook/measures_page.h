#pragma once

#include "app/session/session.h"

#include <QWidget>

class QLabel;
class QLineEdit;
class QPushButton;
class QTableView;

namespace widgets
{
class EmptyState;
}

namespace handbook
{

class MeasureList;
class MeasureView;

/// Every measure: a list that searches as one types, and the handbook page of the one chosen.
class MeasuresPage : public QWidget
{
    Q_OBJECT

public:
    MeasuresPage(session::Session& session, QWidget* parent);

    void showMeasure(const QString& id);
    QString measure() const; ///< the one shown
    void takeList();         ///< gives the keyboard to the list, whose arrows turn the pages

Q_SIGNALS:
    void visitAsked(const records::PatientId& patient, const records::VisitId& visit, const QString& measure);
    void ownMeasureAsked();
    void ownThresholdAsked(const QString& measure);
    void ownErrorAsked(const QString& measure);
    void left(); ///< back to where one came from

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    QWidget* madeTop();
    QWidget* madeList();
    void bindKeys();
    void search();
    void fill();
    void escape();
    bool searchKey(int key);
    bool listKey(const QString& typed, int key);

    session::Session& m_session;
    MeasureList* m_measures;
    QLabel* m_count = nullptr;
    QPushButton* m_study = nullptr;
    QLineEdit* m_search = nullptr;
    QTableView* m_list = nullptr;
    widgets::EmptyState* m_empty = nullptr;
    MeasureView* m_view = nullptr;
};

} // namespace handbook
