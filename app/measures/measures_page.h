#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"

#include <QWidget>

class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;
class QTableView;

namespace widgets
{
class EmptyState;
}

namespace measures
{

class MeasureList;
class MeasureView;
class OwnErrorPage;

/// Every measure: a list that searches as one types, and the handbook page of the one chosen.
class MeasuresPage : public QWidget
{
    Q_OBJECT

public:
    MeasuresPage(session::Session& session, session::Prompts& prompts, QWidget* parent);

    void showMeasure(const QString& id);
    QString measure() const; ///< the one shown

Q_SIGNALS:
    void visitAsked(const records::PatientId& patient, const records::VisitId& visit, const QString& measure);
    void ownMeasureAsked();
    void ownThresholdAsked(const QString& measure);
    void studyThresholdAsked(const catalogue::Threshold& row, const catalogue::Source& source);
    void left(); ///< back to where one came from

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    QWidget* madeHandbook();
    QWidget* madeTop();
    void studyError();
    void showHandbook();
    QWidget* madeList();
    void bindKeys();
    void search();
    void fill();
    void escape();
    bool searchKey(int key);
    bool listKey(const QString& typed, int key);

    session::Session& m_session;
    MeasureList* m_measures;
    QStackedWidget* m_stack;
    OwnErrorPage* m_ownError;
    QLabel* m_count = nullptr;
    QPushButton* m_study = nullptr;
    QLineEdit* m_search = nullptr;
    QTableView* m_list = nullptr;
    widgets::EmptyState* m_empty = nullptr;
    MeasureView* m_view = nullptr;
};

} // namespace measures
