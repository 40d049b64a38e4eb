import { shapeText, type Shape } from "./shape-text.ts";
import { asAsked } from "./transform.ts";
import { docsStyle } from "./docs-style.ts";

interface Parameter {
  readonly name: string;
  readonly in: string;
  readonly required?: boolean;
  readonly description?: string;
  readonly schema?: Shape;
}

interface Content {
  readonly description?: string;
  readonly content?: Readonly<Record<string, { readonly schema: Shape }>>;
}

interface Operation {
  readonly operationId: string;
  readonly summary?: string;
  readonly tags?: readonly string[];
  readonly parameters?: readonly Parameter[];
  readonly requestBody?: Content;
  readonly responses: Readonly<Record<string, Content>>;
}

/** The part of an OpenAPI document that the page shows. */
export interface OpenApi {
  readonly info: { readonly title: string; readonly version: string };
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
  readonly components: { readonly schemas: Readonly<Record<string, Shape>> };
}

const marks: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };
const plain = (text: string): string => text.replace(/[&<>"]/g, (mark) => marks[mark] ?? mark);

/** A shape as text whose names of other shapes lead to them. */
const shown = (shape: Shape): string =>
  `<pre>${plain(shapeText(shape)).replace(/→([\w.-]+)/g, '<a href="#shape-$1">$1</a>')}</pre>`;

function parameterRow({ name, in: place, required, description, schema }: Parameter): string {
  return `<tr><td><code>${plain(name)}</code></td><td>${place}${required ? "" : ", may be left out"}</td><td>${plain(
    schema === undefined ? "" : shapeText(schema),
  )}</td><td>${plain(description ?? "")}</td></tr>`;
}

function contentBlock(title: string, { description, content }: Content): string {
  const bodies = Object.entries(content ?? {}).map(([type, { schema }]) =>
    schema.format === "binary" ? `<p><code>${plain(type)}</code></p>` : shown(schema),
  );
  const words = description === undefined || description === asAsked ? "" : `<p>${plain(description)}</p>`;
  return `<h3>${title}</h3>${words}${bodies.join("")}`;
}

function operationBlock(path: string, method: string, operation: Operation): string {
  const { operationId, summary, parameters = [], requestBody, responses } = operation;
  const good = Object.entries(responses).filter(([status]) => status.startsWith("2"));
  const refused = Object.entries(responses).filter(([status]) => !status.startsWith("2"));
  return `<details id="${operationId}"><summary><b>${method.toUpperCase()}</b> <code>${plain(path)}</code><span>${plain(
    summary ?? "",
  )}</span></summary>${
    parameters.length === 0
      ? ""
      : `<h3>In the address</h3><div class="wide"><table>${parameters.map(parameterRow).join("")}</table></div>`
  }${requestBody ? contentBlock("To send", requestBody) : ""}${good
    .map(([status, answer]) => contentBlock(`Answer ${status}`, answer))
    .join("")}<h3>Refusals</h3><ul>${refused
    .map(([status, { description }]) => `<li>${status}: ${plain(description ?? "")}</li>`)
    .join("")}</ul></details>`;
}

/** The whole description as one page without script. */
export function docsPage({ info, paths, components }: OpenApi): string {
  const groups = new Map<string, string[]>();
  for (const [path, methods] of Object.entries(paths))
    for (const [method, operation] of Object.entries(methods)) {
      const tag = operation.tags?.[0] ?? "all";
      groups.set(tag, [...(groups.get(tag) ?? []), operationBlock(path, method, operation)]);
    }
  const routes = [...groups]
    .map(([tag, blocks]) => `<section><h2 id="tag-${plain(tag)}">${plain(tag)}</h2>${blocks.join("")}</section>`)
    .join("");
  const shapes = Object.entries(components.schemas)
    .map(
      ([name, shape]) =>
        `<details id="shape-${plain(name)}"><summary><b>${plain(name)}</b></summary>${shown(shape)}</details>`,
    )
    .join("");
  return `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>${plain(
    info.title,
  )}: API</title><style>${docsStyle}</style></head><body><main><h1>${plain(info.title)}: API ${plain(
    info.version,
  )}</h1><p>Every route of this server with what it takes and gives. For programs: <a href="/api/openapi.json">openapi.json</a>. Every refusal is JSON with one line, <code>{"error": "…"}</code>. What is sent under a name that ends in <code>-sent</code> may leave out what has a default. Class 4 lasers, fume and fire can maim: every answer is an aid, local law and the laser safety officer decide.</p><nav>${[
    ...groups.keys(),
  ]
    .map((tag) => `<a href="#tag-${plain(tag)}">${plain(tag)}</a>`)
    .join(
      " ",
    )} <a href="#shapes">shapes</a></nav>${routes}<section><h2 id="shapes">Shapes</h2>${shapes}</section></main></body></html>`;
}
