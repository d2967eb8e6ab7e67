// What a person reads goes through the catalogue: a text with two words side by side stands in gettext or ngettext,
// its placeholders have values, and no text is put together from pieces there.
const CATALOGUE = { gettext: [0, 1], ngettext: [0, 3] };    // where the text stands, and where its values
const NO_SENTENCE = new Set(["querySelector", "querySelectorAll", "closest", "matches", "Error", "addData"]);
const WORDS = /[A-Za-z’]{2,}[,;:]? +[a-z’]{2,}|[a-z]{3,}[.!?]$|^[A-Z][a-z]{2,}$/;

const nameOf = (callee) => (callee.type === "MemberExpression" ? callee.property.name : callee.name);

/** Whether a text is markup for a machine: a class list, a selector, a key, an address. */
function isForMachines(node) {
  for (let at = node; at.parent; at = at.parent) {
    const parent = at.parent;
    if (["CallExpression", "NewExpression"].includes(parent.type) && parent.arguments.includes(at)) {
      const name = nameOf(parent.callee);
      if (name in CATALOGUE || NO_SENTENCE.has(name) || (name === "button" && parent.arguments.indexOf(at) === 2)) return true;
    }
    if (parent.type === "Property" && parent.value === at && ["class", "className"].includes(parent.key.name)) return true;
    if (parent.type === "BinaryExpression") return true;    // compared with a key or a state
    if (parent.type === "AssignmentExpression" && parent.left.property?.name === "className") return true;
    if (parent.type === "VariableDeclarator" && /^[A-Z_]+$/.test(parent.id.name || "") && at.type !== "ObjectExpression" && at.type !== "ArrayExpression") return true;
    if (["ImportDeclaration", "ExpressionStatement"].includes(parent.type)) return parent.type === "ImportDeclaration" || Boolean(parent.directive);
  }
  return false;
}

export default {
  meta: { type: "problem", schema: [], messages: {
    loose: "Somebody reads this: put it through gettext or ngettext.",
    pieces: "A sentence for the catalogue is one text in double quotation marks, with %(name)s where values stand.",
    values: "%({{name}})s has no value.",
    unused: "{{name}} has no place in the sentence.",
  } },
  create(context) {
    function loose(node, text) {
      if (WORDS.test(text) && !isForMachines(node)) context.report({ node, messageId: "loose" });
    }

    function checkCall(node) {
      const name = nameOf(node.callee), [at, valuesAt] = CATALOGUE[name];
      const texts = node.arguments.slice(at, name === "ngettext" ? 2 : 1);
      if (texts.some((one) => one.type !== "Literal" || typeof one.value !== "string")) { context.report({ node, messageId: "pieces" }); return; }
      const places = new Set(texts.flatMap((one) => [...one.value.matchAll(/%\((\w+)\)s/g)].map((found) => found[1])));
      const values = node.arguments[valuesAt];
      if (values && values.type !== "ObjectExpression") return;    // a variable: the type checker knows it, this does not
      const spread = values?.properties.some((one) => one.type === "SpreadElement");
      const given = new Set((values?.properties || []).filter((one) => one.key).map((one) => one.key.name));
      if (name === "ngettext") given.add("n");
      for (const place of places) if (!given.has(place) && !spread) context.report({ node, messageId: "values", data: { name: place } });
      for (const one of given) if (!places.has(one) && one !== "n") context.report({ node, messageId: "unused", data: { name: one } });
    }

    return {
      Literal: (node) => { if (typeof node.value === "string") loose(node, node.value); },
      TemplateLiteral: (node) => loose(node, node.quasis.map((one) => one.value.cooked).join("")),
      CallExpression: (node) => { if (node.callee.type === "Identifier" && node.callee.name in CATALOGUE) checkCall(node); },
    };
  },
};
