// Escaped text, undone by the rules of XML 1.0 (sections 2.4 and 4.6, from memory).
#include "io/text/markup.h"

#include <map>
#include <random>

#include "tests/catch.h"

namespace tubewright::markup_test {

namespace {

/// What an XML reader makes of character data or of an attribute's value in double quotes. Fails
/// where the text would end either, or refers to an entity that XML does not have by itself.
std::string read_back(const std::string& markup) {
  const std::map<std::string, char> entities = {
      {"amp", '&'}, {"lt", '<'}, {"gt", '>'}, {"quot", '"'}, {"apos", '\''}};
  std::string text;
  for (std::size_t i = 0; i < markup.size(); ++i) {
    REQUIRE(markup[i] != '<');
    REQUIRE(markup[i] != '>');
    REQUIRE(markup[i] != '"');
    if (markup[i] != '&') {
      text += markup[i];
      continue;
    }
    const std::size_t end = markup.find(';', i);
    REQUIRE(end != std::string::npos);
    const auto entity = entities.find(markup.substr(i + 1, end - i - 1));
    REQUIRE(entity != entities.end());
    text += entity->second;
    i = end;
  }
  return text;
}

}  // namespace

TEST_CASE("any text is read back from markup as it was, and cannot end the place it stands in") {
  std::mt19937 random(7);
  const std::string alphabet = "&<>\"';ampltgquo #x\n";
  for (int i = 0; i < 500; ++i) {
    std::string text;
    for (unsigned n = random() % 30; n > 0; --n) text += alphabet[random() % alphabet.size()];
    CHECK(read_back(escaped(text)) == text);
  }
}

TEST_CASE("each sign with a meaning in markup becomes its entity, also where it looks escaped") {
  CHECK(escaped("a < b & c > \"d\"") == "a &lt; b &amp; c &gt; &quot;d&quot;");
  CHECK(escaped("&lt;") == "&amp;lt;");
  CHECK(escaped("</script><b onclick=\"x\">") == "&lt;/script&gt;&lt;b onclick=&quot;x&quot;&gt;");
}

TEST_CASE("text without such signs goes into markup byte for byte") {
  CHECK(escaped("").empty());
  CHECK(escaped("Träger 管 it's 25 x 2; 100 %\n") == "Träger 管 it's 25 x 2; 100 %\n");
}

}  // namespace tubewright::markup_test
