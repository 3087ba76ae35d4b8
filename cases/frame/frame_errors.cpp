#include "cases/frame/frame_errors.h"

#include "cases/frame/wording.h"

namespace tubewright {

Diagnostic impossible_value(const std::string& subject, const std::string& what,
                            const std::string& range) {
  return {subject + " has an impossible " + quoted(what), "give " + range};
}

Diagnostic name_given_twice(const std::string& kind, const std::string& name) {
  return {kind + " " + quoted(name) + " is given twice", "rename one of the two"};
}

Diagnostic member_given_twice(const std::string& member) {
  return {"member " + quoted(member) + " is given twice",
          "rename one of the two; the pieces of a path `p` are named `p.1`, `p.2`, ..."};
}

Diagnostic unknown_name(const std::string& subject, const std::string& kind,
                        const std::string& name, const std::string& advice) {
  return {subject + " names " + kind + " " + quoted(name) + ", which does not exist", advice};
}

std::string what_to_name(const std::string& kind, const std::string& key,
                         const std::vector<std::string>& known) {
  constexpr std::size_t most_names_listed = 8;
  if (known.empty()) return "there is no " + kind + "; define it under " + quoted(key);
  std::string advice = "define it under " + quoted(key);
  if (known.size() > most_names_listed) return advice;
  return advice + " or use one of " + quoted_list(known);
}

Diagnostic node_without_members(const std::string& subject, const std::string& node) {
  return {subject + " names node " + quoted(node) + ", which no member joins",
          "join the node with a member, or use a node that is part of the frame"};
}

Diagnostic mirror_endings_alike(const std::string& from, const std::string& to) {
  return {"`mirror` cannot tell the endings " + quoted(from) + " and " + quoted(to) + " apart",
          "give two different endings, such as `_l` and `_r`"};
}

Diagnostic mirror_copies_nothing(const std::string& ending) {
  return {"`mirror` copies nothing: no name ends in " + quoted(ending),
          "end the names of one side in " + quoted(ending)};
}

Diagnostic attachment_is_its_own_image(const std::string& attachment, const std::string& ending) {
  return {"attachment " + quoted(attachment) + " is its own image: `mirror` would make it twice",
          "give it a name that does not end in " + quoted(ending)};
}

Diagnostic gusset_is_its_own_image(const std::string& gusset, const std::string& ending) {
  return {"gusset " + quoted(gusset) + " is its own image: `mirror` would make it twice",
          "give it a name that does not end in " + quoted(ending)};
}

Diagnostic image_is_given(const std::string& kind, const std::string& image,
                          const std::string& original) {
  return {kind + " " + quoted(image) + " is given, but `mirror` makes it from " + quoted(original),
          kind == "support" ? "remove it; hold what only one side may hold at a node on y = 0"
                            : "remove it, or give it another ending"};
}

Diagnostic node_without_image(const std::string& part, const std::string& node,
                              const std::string& ending) {
  return {part + " is mirrored, but its node " + quoted(node) +
              " lies off the plane y = 0 and has no image",
          "end its name in " + quoted(ending) + ", or put it on y = 0"};
}

Diagnostic image_not_there(const std::string& part, const std::string& node,
                           const std::string& image) {
  return {part + " is mirrored, but the image " + quoted(image) + " of its node " + quoted(node) +
              " does not exist",
          "describe " + quoted(image) + " and let `mirror` make " + quoted(node)};
}

}  // namespace tubewright
