#include "io/options/man_page.h"

#include <cctype>
#include <sstream>

#include "io/options/command_table.h"
#include "io/options/help_pages.h"
#include "io/options/help_text.h"
#include "io/results/cautions.h"
#include "io/text/version.h"

namespace tubewright {

namespace {

// roff
// ----

/// A character as roff shows it unchanged: a plain `-` would come out as a hyphen that cannot be
/// copied into a shell, quotation marks as curly ones.
std::string character(char c) {
  switch (c) {
    case '\\':
      return "\\e";
    case '-':
      return "\\-";
    case '\'':
      return "\\(aq";
    case '`':
      return "\\(ga";
    case '^':
      return "\\(ha";
    case '~':
      return "\\(ti";
    default:
      return {c};
  }
}

/// What is typed.
std::string literal(const std::string& text) {
  std::string roff;
  for (const char c : text) roff += character(c);
  return roff;
}

std::string bold(const std::string& text) { return "\\fB" + literal(text) + "\\fR"; }
std::string italic(const std::string& text) { return "\\fI" + literal(text) + "\\fR"; }

bool is_letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }

/// A sentence of the help: what stands in backticks is bold, a dash between letters a hyphen.
std::string prose(const std::string& text) {
  std::string roff;
  bool typed = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool between =
        i > 0 && i + 1 < text.size() && is_letter(text[i - 1]) && is_letter(text[i + 1]);
    if (text[i] == '`') {
      roff += typed ? "\\fR" : "\\fB";
      typed = !typed;
    } else if (!typed && between && (text[i] == '-' || text[i] == '\'')) {
      roff += text[i];
    } else {
      roff += character(text[i]);
    }
  }
  return roff;
}

/// A line of text: roff reads one that begins with a dot or an apostrophe as a request.
std::string line(const std::string& roff) {
  const bool request = roff.starts_with('.') || roff.starts_with('\'');
  return (request ? "\\&" : "") + roff + "\n";
}

/// Text over several lines, which roff fills again as the reader's terminal is wide.
std::string filled(const std::string& roff) {
  constexpr std::size_t width = 78;
  std::string lines, current;
  std::istringstream stream(roff);
  for (std::string word; stream >> word;) {
    if (!current.empty() && current.size() + 1 + word.size() > width) {
      lines += line(current);
      current.clear();
    }
    current += (current.empty() ? "" : " ") + word;
  }
  return lines + line(current);
}

std::string section(const std::string& heading) { return ".SH " + heading + "\n"; }

std::string tagged(const std::string& tag, const std::string& text) {
  return ".TP\n" + line(tag) + filled(text);
}

std::string bullet(const std::string& text) { return ".IP \\(bu 2\n" + filled(text); }

// From the table and the pages
// ----------------------------

/// "-o, --output DIR": the value, which is the reader's to choose, in italics.
std::string option_tag(const std::string& spelt) {
  const std::size_t dashes = spelt.find("--");
  const std::size_t space = spelt.find(' ', dashes);
  if (space == std::string::npos) return bold(spelt);
  return bold(spelt.substr(0, space)) + " " + italic(spelt.substr(space + 1));
}

std::string with_operand(const Command& command) {
  return bold(command.name) + (command.shown.empty() ? "" : " " + italic(command.shown));
}

std::string synopsis() {
  std::string roff = section("SYNOPSIS");
  for (const Command& command : command_table()) {
    roff += line(bold("tubewright") + " " + with_operand(command) +
                 (command.options.empty() ? "" : " [" + italic("option") + " ...]"));
    roff += ".br\n";
  }
  for (const CommandOption& option : program_options()) {
    roff += line(bold("tubewright") + " " + bold(option.name)) + ".br\n";
  }
  return roff.substr(0, roff.size() - 4);
}

std::string commands() {
  std::string roff = section("COMMANDS");
  for (const Command& command : command_table()) {
    const HelpPage page = help_page(command_help(command.name));
    roff += ".TP\n" + line(with_operand(command));
    for (std::size_t i = 0; i < page.notes.size(); ++i) {
      roff += (i > 0 ? ".IP\n" : "") + filled(prose(page.notes[i]));
    }
  }
  return roff;
}

std::string options() {
  std::string roff = section("OPTIONS");
  roff +=
      filled(prose("`tubewright help COMMAND` and `tubewright COMMAND --help` print these pages."));
  for (const CommandOption& option : program_options()) {
    roff += tagged(option_tag(spelt(option)), prose(option.help));
  }
  for (const Command& command : command_table()) {
    const HelpPage page = help_page(command_help(command.name));
    if (page.operands.empty() && command.options.empty()) continue;
    roff += ".SS tubewright " + literal(command.name) + "\n";
    for (const auto& [operand, text] : page.operands) roff += tagged(italic(operand), prose(text));
    for (const auto& [option, text] : page.options) {
      if (option != spelt(help_option())) roff += tagged(option_tag(option), prose(text));
    }
  }
  return roff;
}

std::string exit_status() {
  std::string roff = section("EXIT STATUS");
  roff += tagged("0", "answered; all that carries load was checked and passes");
  roff += tagged("1", "answered; something fails, or is not proven");
  roff += tagged("2", "could not answer: bad input, a mechanism, a place that cannot be written");
  roff += ".PP\nIn the words of each command:\n";
  for (const Command& command : command_table()) {
    const HelpPage page = help_page(command_help(command.name));
    if (!page.exit_code.empty()) roff += tagged(bold(command.name), prose(page.exit_code));
  }
  return roff;
}

std::string examples() {
  std::string roff = section("EXAMPLES");
  for (const auto& [typed, text] : help_page(program_help()).examples) {
    roff += tagged(bold(typed), prose(text));
  }
  return roff;
}

std::string standing_cautions() {
  std::string roff = section("CAUTIONS");
  for (const std::string& caution : cautions()) roff += bullet(prose(caution));
  return roff;
}

// By hand
// -------

std::string description() {
  return section("DESCRIPTION") +
         filled(
             prose("tubewright tells someone who welds a light vehicle frame from square tube "
                   "whether it will hold, before any steel is cut. A YAML file describes nodes, "
                   "tubes, wheels, masses and loads in the units of the workshop: mm, N, kg, MPa, "
                   "degrees. Axes are those of ISO 8855: x forward, y left, z up.")) +
         ".PP\n" +
         filled(prose("Results go to standard output, messages to standard error. With `--json` "
                      "standard output is exactly one JSON object. Work that takes longer than a "
                      "second tells on a terminal what it is at, unless `-q` is given.")) +
         ".PP\n" +
         filled(prose("`tubewright start` writes a frame file in which every key is explained; "
                      "`tubewright schema` prints its grammar."));
}

std::string files() {
  return section("FILES") +
         tagged(italic("FRAME.yaml"), prose("the frame file; `-` is standard input")) +
         tagged(italic("DIR/report.html"), prose("verdict, frame in 3D, plots and tables in one "
                                                 "page, for a browser")) +
         tagged(italic("DIR/results.json"), prose("all numbers, for programs")) +
         tagged(italic("DIR/cut_list.csv"), prose("pieces to cut, for a spreadsheet")) +
         tagged(italic("DIR/sheet_*.dxf") + ", " + italic("DIR/sheet_*.svg"),
                prose("pieces of sheet metal in full size, with rivet holes")) +
         tagged(italic("DIR/loads.pvd"),
                prose("deflections, forces and stresses of every load "
                      "case with the VTK files it lists, for 3D viewers")) +
         tagged(italic("DIR/loads_*.png"), prose("a picture of every load case")) +
         tagged(italic("DIR/loads_*.glb"),
                prose("the same as a solid model, for phones and 3D viewers")) +
         tagged(italic("DIR/modes.pvd"), prose("the natural modes as an animation")) +
         tagged(italic("DIR/vary.csv") + ", " + italic("DIR/vary.json") + ", " +
                    italic("DIR/vary.svg"),
                prose("combinations of values as a table, for programs and as a plot")) +
         tagged(italic("FILE"), prose("of `size`: the frame file in other sizes")) +
         tagged(italic("DIR/compare.html"), prose("two frames side by side, for a browser")) +
         ".PP\n" + filled(prose("Files are written aside and renamed when they are whole."));
}

std::string environment() {
  return section("ENVIRONMENT") +
         tagged(bold("DISPLAY"), prose("where pictures are drawn and windows opened; pictures need "
                                       "none where Xvfb is installed")) +
         tagged(bold("NO_COLOR"), prose("any text turns colour off; without it there is colour on "
                                        "a terminal only")) +
         tagged(bold("TERM"),
                prose("`dumb` turns off colour and the line that tells of progress")) +
         tagged(bold("SOURCE_DATE_EPOCH"), prose("seconds since 1970, the date that a report bears "
                                                 "instead of today's"));
}

std::string see_also() {
  return section("SEE ALSO") +
         filled(
             prose("YAML 1.2.2 (yaml.org/spec), JSON Schema draft-07 (json-schema.org), ISO 8855 "
                   "(axes), EN 1993-1-1 and EN 1993-1-8 (steel), EN 1999-1-1 (aluminium)."));
}

}  // namespace

std::string man_page() {
  return ".\\\" Made from the table of commands and the help pages: io/man_page.cpp.\n"
         ".TH TUBEWRIGHT 1 \"\" \"tubewright " +
         std::string(version()) + "\" \"User Commands\"\n" + section("NAME") +
         "tubewright \\- strength and stiffness of light welded tube frames\n" + synopsis() +
         description() + commands() + options() + exit_status() + files() + environment() +
         examples() + standing_cautions() + see_also();
}

}  // namespace tubewright
