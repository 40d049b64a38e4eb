/** A small strict reader: enough to see that markup is well formed. Throws with the place of the first fault. */
export interface XmlNode {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: XmlNode[];
  text: string;
}

const attribute = /\s+([A-Za-z_][\w:.-]*)="([^"<]*)"/y;
const entity = /&(?!(?:amp|lt|gt|quot|#39);)/;

export function readXml(source: string): XmlNode {
  const root: XmlNode = { name: "", attributes: {}, children: [], text: "" };
  const open: XmlNode[] = [root];
  let at = 0;
  while (at < source.length) {
    const here = open[open.length - 1]!;
    if (source[at] !== "<") {
      const end = source.indexOf("<", at) === -1 ? source.length : source.indexOf("<", at);
      const text = source.slice(at, end);
      if (entity.test(text) || text.includes(">")) throw new Error(`bare character in text: ${text.slice(0, 60)}`);
      here.text += text;
      at = end;
      continue;
    }
    const close = /<\/([\w:.-]+)>/y;
    close.lastIndex = at;
    const closing = close.exec(source);
    if (closing !== null) {
      if (closing[1] !== here.name) throw new Error(`</${closing[1]}> closes <${here.name}>`);
      open.pop();
      at = close.lastIndex;
      continue;
    }
    const start = /<([A-Za-z][\w:.-]*)/y;
    start.lastIndex = at;
    const starting = start.exec(source);
    if (starting === null) throw new Error(`no tag at ${source.slice(at, at + 40)}`);
    at = start.lastIndex;
    const attributes: Record<string, string> = {};
    for (;;) {
      attribute.lastIndex = at;
      const found = attribute.exec(source);
      if (found === null) break;
      const [, name, value] = found as unknown as [string, string, string];
      if (name in attributes) throw new Error(`attribute ${name} twice in <${starting[1]}>`);
      if (entity.test(value)) throw new Error(`bare & in attribute ${name}`);
      attributes[name] = value;
      at = attribute.lastIndex;
    }
    const node: XmlNode = { name: starting[1]!, attributes, children: [], text: "" };
    here.children.push(node);
    if (source.startsWith("/>", at)) at += 2;
    else if (source[at] === ">") {
      at += 1;
      open.push(node);
    } else throw new Error(`broken tag <${node.name} at ${source.slice(at, at + 40)}`);
  }
  if (open.length !== 1 || root.children.length !== 1) throw new Error("not exactly one closed root element");
  return root.children[0]!;
}

export function allNodes(node: XmlNode): XmlNode[] {
  return [node, ...node.children.flatMap(allNodes)];
}

export function nodesNamed(root: XmlNode, name: string): XmlNode[] {
  return allNodes(root).filter((node) => node.name === name);
}

/** Well formed, named, ids unique, every reference met, no number that is none. Returns the root. */
export function soundSvg(source: string): XmlNode {
  const root = readXml(source);
  if (root.name !== "svg") throw new Error(`root is <${root.name}>`);
  const nodes = allNodes(root);
  const ids = nodes.flatMap((node) => (node.attributes.id === undefined ? [] : [node.attributes.id]));
  if (new Set(ids).size !== ids.length) throw new Error(`an id stands twice: ${ids.join(" ")}`);
  for (const node of nodes)
    for (const value of Object.values(node.attributes)) {
      if (/NaN|Infinity|undefined|null/.test(value)) throw new Error(`bad value ${value} in <${node.name}>`);
      for (const [, id] of value.matchAll(/url\(#([^)]+)\)/g))
        if (!ids.includes(id!)) throw new Error(`reference to missing id ${id}`);
    }
  for (const id of root.attributes["aria-labelledby"]!.split(" "))
    if (!ids.includes(id)) throw new Error(`name of the picture is missing: ${id}`);
  return root;
}
