// What the pages of settings and of a design share: a file as a form and as its own words. Of this folder alone.
#pragma once

#include "desk/answers.h"
#include "workshop/file_form.h"

namespace ordinatio::inline desk {

/// Names that a field may have which no table knows.
struct FormNames {
  std::vector<std::string> designs, faces;
};

/// @form: the fields, the file's words, and by what a change of it is known.
Json shape_of_form(const std::string& text, const std::vector<FilledField>& fields, const FormNames& names);
/// Changes of fields, as the request has them.
std::vector<FormChange> asked_changes(const Ask& ask);

/// What the file would be, by a request that has changes of fields or all of its words.
struct AskedText {
  std::string before, after;
};
/// Faults: it has changed since the page read it, a field is of another kind; `where` is then the field's name.
Result<AskedText> asked_text(const std::filesystem::path& file, const Form& form, const Ask& ask);

/// The fault with the field that it is about, as far as it is about one.
Response refused(const Fault& fault, const std::string& text, const Form& form);
/// Writes what was asked, once its reader has taken it.
Response saved(WorkshopDesk& desk, const std::filesystem::path& file, const AskedText& asked);

}  // namespace ordinatio::inline desk
