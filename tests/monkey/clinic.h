#pragma once

#include "app/session/demo.h"
#include "app/shell/main_window.h"
#include "core/records/summary.h"
#include "tests/support/clinic_desk.h"

namespace monkey
{

using namespace Qt::StringLiterals;

/// Prompts that answer as told, and turn back when they are asked the same over and over.
struct Replies : Answers {
    int asks = 0; ///< since the last step

    std::optional<QString> line(const QString& question, const QString& label,
                                const QString& initial) override
    {
        const auto answer = Answers::line(question, label, initial);
        return ++asks > 3 ? std::nullopt : answer;
    }
};

/// The whole program before a demo clinic with records and settings of its own.
struct Clinic : clinic_desk::Desk {
    Replies replies;
    std::vector<records::PatientId> patients;
    std::unique_ptr<shell::MainWindow> window;

    Clinic()
    {
        if (const auto made = session::makeDemoClinic(*session); !made)
            qFatal("No demo clinic: %s", qPrintable(made.error().what.english()));
        if (const auto all = session->patients(); all) {
            for (const records::PatientSummary& patient : *all)
                patients.push_back(patient.id);
        }
        window = std::make_unique<shell::MainWindow>(*session, replies);
        window->show();
    }
};

} // namespace monkey
