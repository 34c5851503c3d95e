#pragma once

#include "core/base/result.h"
#include "core/records/letter.h"
#include "core/storage/store.h"

namespace storage
{

class Letters
{
public:
    explicit Letters(Store& store) : m_store(store) {}

    /// Inserts where the revision is 0, else updates a draft. Refused for a letter that is signed.
    base::Result<records::Letter> save(const records::Letter& letter);
    /// Freezes a draft with author, body and document. It never changes again.
    base::Result<records::Letter> signOff(const records::Letter& letter);
    /// Without the documents, which are large: body, PDF and ODT are empty.
    base::Result<std::vector<records::Letter>> ofPatient(const records::PatientId& patient) const;
    /// The whole letter. NotFound where there is none.
    base::Result<records::Letter> withId(const records::LetterId& id) const;

    /// Notes that a signed letter was given on. Invalid without a day and a way, Refused for a draft.
    base::Result<void> noteHandover(const records::Handover& handover);
    /// Of all letters of a patient, those of one letter in the order of noting.
    base::Result<std::vector<records::Handover>> handovers(const records::PatientId& patient) const;
    /// When the letters of a patient were signed, without the letters.
    base::Result<std::vector<records::LetterSigned>> signedOf(const records::PatientId& patient) const;

private:
    Store& m_store;
};

} // namespace storage
