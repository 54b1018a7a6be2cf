#include "report/form.h"

#define POINTERHOLDER_TRANSITION 4 // QPDF 11: shared_ptr, no older pointer type

#include <fmt/format.h>
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFEFStreamObjectHelper.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>
#include <qpdf/QPDFFileSpecObjectHelper.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>
#include <qpdf/QPDFWriter.hh>
#include <qpdf/QUtil.hh>

#include <exception>
#include <map>

namespace pritchel::report {
namespace {

using Object = QPDFObjectHandle;

constexpr double pt_per_mm = 72.0 / 25.4;
constexpr int flag_read_only = 1 << 0;
constexpr int flag_multiline = 1 << 12;
constexpr int flag_radio = 1 << 15;
constexpr int annotation_print = 1 << 2;
constexpr int annotation_hidden = 1 << 1;
constexpr double text_size_pt = 9;
constexpr double note_size_pt = 8.5;

/// One decimal less than Cairo's own; enough for a box.
std::string number(double value) {
  return fmt::format("{:.3f}", value);
}

class Form {
public:
  Form(QPDF& pdf, double page_height_mm)
      : pdf_(pdf),
        page_height_mm_(page_height_mm),
        pages_(QPDFPageDocumentHelper(pdf).getAllPages()),
        fields_(Object::newArray()) {}

  void add(const FormField& field) {
    switch (field.kind) {
    case FieldKind::choice:
      return add_choice(field);
    case FieldKind::signature:
      return add_signature(field);
    case FieldKind::hidden:
      return add_hidden(field);
    default:
      return add_text(field);
    }
  }

  void finish() {
    Object form = Object::newDictionary();
    form.replaceKey("/Fields", fields_);
    form.replaceKey("/DA", Object::newString(appearance_command(text_size_pt)));
    Object fonts = Object::newDictionary();
    fonts.replaceKey("/Helv", helvetica());
    Object resources = Object::newDictionary();
    resources.replaceKey("/Font", fonts);
    form.replaceKey("/DR", resources);
    pdf_.getRoot().replaceKey("/AcroForm", pdf_.makeIndirectObject(form));
  }

private:
  QPDF& pdf_;
  double page_height_mm_;
  std::vector<QPDFPageObjectHelper> pages_;
  Object fields_;
  Object helvetica_;
  std::map<std::string, Object> groups_;

  static std::string appearance_command(double size) {
    return fmt::format("/Helv {} Tf 0 g", number(size));
  }

  Object helvetica() {
    if (!helvetica_.isInitialized())
      helvetica_ = pdf_.makeIndirectObject(
          Object::parse("<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica "
                        "/Encoding /WinAnsiEncoding >>"));
    return helvetica_;
  }

  [[nodiscard]] Object rectangle(const PaperBox& box) const {
    Object array = Object::newArray();
    for (const double mm :
         {box.left, page_height_mm_ - box.bottom(), box.right(), page_height_mm_ - box.top})
      array.appendItem(Object::newReal(number(mm * pt_per_mm)));
    return array;
  }

  Object widget(const FormField& field) {
    Object annotation = Object::parse("<< /Type /Annot /Subtype /Widget >>");
    annotation.replaceKey("/Rect", rectangle(field.box));
    annotation.replaceKey("/F", Object::newInteger(annotation_print));
    annotation.replaceKey("/P", page(field).getObjectHandle());
    return annotation;
  }

  QPDFPageObjectHelper& page(const FormField& field) {
    return pages_.at(static_cast<std::size_t>(field.page - 1));
  }

  void put_on_page(const FormField& field, const Object& annotation) {
    Object of_page = page(field).getObjectHandle();
    if (!of_page.getKey("/Annots").isArray())
      of_page.replaceKey("/Annots", Object::newArray());
    of_page.getKey("/Annots").appendItem(annotation);
  }

  Object appearance(const PaperBox& box, const std::string& content) {
    Object stream = pdf_.newStream(content);
    Object dictionary = stream.getDict();
    dictionary.replaceKey("/Type", Object::newName("/XObject"));
    dictionary.replaceKey("/Subtype", Object::newName("/Form"));
    dictionary.replaceKey("/BBox",
                          Object::parse(fmt::format("[0 0 {} {}]",
                                                    number(box.width * pt_per_mm),
                                                    number(box.height * pt_per_mm))));
    Object resources = Object::newDictionary();
    dictionary.replaceKey("/Resources", resources);
    return stream;
  }

  static int read_only(const FormField& field) {
    return field.frozen == Frozen::yes ? flag_read_only : 0;
  }

  static void name(Object& dictionary, const FormField& field) {
    dictionary.replaceKey("/T", Object::newUnicodeString(field.name));
    dictionary.replaceKey("/TU", Object::newUnicodeString(field.spoken));
  }

  /// What is typed already, so that it shows without the reader's help. Lines break where the
  /// layout broke them.
  Object text_appearance(const FormField& field, double size) {
    const double height = field.box.height * pt_per_mm;
    const bool many = field.kind == FieldKind::text_of_lines;
    const double first = many ? height - size - 2 : (height - size) / 2 + 1.5;
    std::string content = "/Tx BMC\n";
    // A frozen field's words stand on the page itself, in the page's own typeface.
    const bool typed = !field.value.empty() && field.frozen == Frozen::no;
    if (typed) {
      content += fmt::format(
          "q BT {} {} TL 2 {} Td\n", appearance_command(size), number(size * 1.2), number(first));
      std::size_t from = 0;
      while (from <= field.value.size()) {
        const auto to = std::min(field.value.find('\n', from), field.value.size());
        std::string line;
        QUtil::utf8_to_win_ansi(field.value.substr(from, to - from), line, '?');
        content += Object::newString(line).unparse() + " Tj T*\n";
        from = to + 1;
      }
      content += "ET Q\n";
    }
    Object stream = appearance(field.box, content + "EMC\n");
    if (typed) {
      Object fonts = Object::newDictionary();
      fonts.replaceKey("/Helv", helvetica());
      stream.getDict().getKey("/Resources").replaceKey("/Font", fonts);
    }
    return stream;
  }

  void add_text(const FormField& field) {
    const bool many = field.kind == FieldKind::text_of_lines;
    const double size = many ? note_size_pt : text_size_pt;
    Object dictionary = widget(field);
    name(dictionary, field);
    dictionary.replaceKey("/FT", Object::newName("/Tx"));
    dictionary.replaceKey("/Ff",
                          Object::newInteger((many ? flag_multiline : 0) | read_only(field)));
    dictionary.replaceKey("/DA", Object::newString(appearance_command(size)));
    if (!field.value.empty())
      dictionary.replaceKey("/V", Object::newUnicodeString(field.value));
    Object normal = Object::newDictionary();
    normal.replaceKey("/N", text_appearance(field, size));
    dictionary.replaceKey("/AP", normal);
    Object made = pdf_.makeIndirectObject(dictionary);
    fields_.appendItem(made);
    put_on_page(field, made);
  }

  void add_hidden(const FormField& field) {
    Object dictionary = widget(field);
    name(dictionary, field);
    dictionary.replaceKey("/FT", Object::newName("/Tx"));
    dictionary.replaceKey("/F", Object::newInteger(annotation_hidden));
    dictionary.replaceKey("/Ff", Object::newInteger(read_only(field)));
    dictionary.replaceKey("/V", Object::newUnicodeString(field.value));
    Object made = pdf_.makeIndirectObject(dictionary);
    fields_.appendItem(made);
    put_on_page(field, made);
  }

  Object group(const FormField& field) {
    const auto known = groups_.find(field.name);
    if (known != groups_.end())
      return known->second;
    Object dictionary = Object::parse("<< /FT /Btn /Kids [] >>");
    FormField named = field;
    named.spoken = field.spoken.substr(0, field.spoken.find(':'));
    name(dictionary, named);
    dictionary.replaceKey("/Ff", Object::newInteger(flag_radio | read_only(field)));
    dictionary.replaceKey("/V", Object::newName(field.value.empty() ? "/Off" : "/" + field.value));
    Object made = pdf_.makeIndirectObject(dictionary);
    fields_.appendItem(made);
    groups_.emplace(field.name, made);
    return made;
  }

  /// A box, and a cross in it when chosen: paths only, for symbol fonts come out empty elsewhere.
  Object box_appearance(const PaperBox& box, bool crossed) {
    const double w = box.width * pt_per_mm, h = box.height * pt_per_mm;
    std::string content =
        fmt::format("q 1 g 0.1 G 0.8 w 0.4 0.4 {} {} re B Q\n", number(w - 0.8), number(h - 0.8));
    if (crossed) {
      const double in = w * 0.24;
      content += fmt::format("q 0.1 G 1.6 w 1 J {0} {0} m {1} {2} l {0} {2} m {1} {0} l S Q\n",
                             number(in),
                             number(w - in),
                             number(h - in));
    }
    return appearance(box, content);
  }

  void add_choice(const FormField& field) {
    Object parent = group(field);
    Object dictionary = widget(field);
    dictionary.replaceKey("/Parent", parent);
    dictionary.replaceKey("/TU", Object::newUnicodeString(field.spoken));
    const bool chosen = field.value == field.option;
    dictionary.replaceKey("/AS", Object::newName(chosen ? "/" + field.option : "/Off"));
    Object states = Object::newDictionary();
    states.replaceKey("/" + field.option, box_appearance(field.box, true));
    states.replaceKey("/Off", box_appearance(field.box, false));
    Object normal = Object::newDictionary();
    normal.replaceKey("/N", states);
    dictionary.replaceKey("/AP", normal);
    Object made = pdf_.makeIndirectObject(dictionary);
    parent.getKey("/Kids").appendItem(made);
    put_on_page(field, made);
  }

  void add_signature(const FormField& field) {
    Object dictionary = widget(field);
    name(dictionary, field);
    dictionary.replaceKey("/FT", Object::newName("/Sig"));
    Object normal = Object::newDictionary();
    normal.replaceKey("/N", appearance(field.box, ""));
    dictionary.replaceKey("/AP", normal);
    Object made = pdf_.makeIndirectObject(dictionary);
    fields_.appendItem(made);
    put_on_page(field, made);
  }
};

/// "2026-05-04T09:30:00Z" as PDF writes it: D:20260504093000Z
std::string pdf_date(const std::string& time) {
  std::string digits;
  for (const char c : time)
    if (c >= '0' && c <= '9')
      digits += c;
  return "D:" + digits + "Z";
}

void attach(QPDF& pdf, const Attachment& attachment) {
  auto stream = QPDFEFStreamObjectHelper::createEFStream(pdf, attachment.bytes);
  stream.setSubtype("application/json");
  stream.setCreationDate(pdf_date(attachment.created));
  stream.setModDate(pdf_date(attachment.created));
  auto specification = QPDFFileSpecObjectHelper::createFileSpec(pdf, attachment.name, stream);
  specification.setDescription(attachment.description);
  specification.getObjectHandle().replaceKey("/AFRelationship", Object::newName("/Data"));
  QPDFEmbeddedFileDocumentHelper(pdf).replaceEmbeddedFile(attachment.name, specification);
  Object associated = Object::newArray();
  associated.appendItem(specification.getObjectHandle());
  pdf.getRoot().replaceKey("/AF", associated);
}

} // namespace

Result<std::vector<char>> add_form(const std::string& pdf_bytes,
                                   const std::vector<FormField>& fields,
                                   const Attachment& attachment,
                                   double page_height_mm) {
  try {
    QPDF pdf;
    pdf.setSuppressWarnings(true);
    pdf.processMemoryFile("paper", pdf_bytes.data(), pdf_bytes.size());
    Form form(pdf, page_height_mm);
    for (const auto& field : fields)
      form.add(field);
    form.finish();
    attach(pdf, attachment);
    pdf.getRoot().replaceKey("/MarkInfo", Object::parse("<< /Marked true >>"));
    pdf.getRoot().replaceKey("/Lang", Object::newString("en-GB"));
    // ISO 32000-1, 12.2: a reader's print dialogue starts without scaling, for the life-size pages.
    pdf.getRoot().replaceKey("/ViewerPreferences",
                             Object::parse("<< /DisplayDocTitle true /PrintScaling /None >>"));
    QPDFWriter writer(pdf);
    writer.setOutputMemory();
    writer.setDeterministicID(true);
    writer.setObjectStreamMode(qpdf_o_generate);
    writer.setMinimumPDFVersion("1.7");
    writer.write();
    const auto buffer = writer.getBufferSharedPointer();
    const auto* data = reinterpret_cast<const char*>(buffer->getBuffer());
    return std::vector<char>(data, data + buffer->getSize());
  } catch (const std::exception& error) {
    return fail("The paper",
                "could not be finished: " + std::string(error.what()),
                "report this",
                Trouble::outside);
  }
}

} // namespace pritchel::report
