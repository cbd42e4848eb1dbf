import { html, raw } from 'hono/html';
import type { JsonSchema } from './describe-schemas.ts';
import { referenceStyle } from './reference-style.ts';

interface Content {
  [type: string]: { schema?: JsonSchema };
}

interface Operation {
  tags?: string[];
  summary?: string;
  description?: string;
  parameters?: { name: string; in: string; required?: boolean; description?: string; schema?: JsonSchema }[];
  requestBody?: { content: Content };
  responses?: Record<string, { description: string; content?: Content }>;
}

export interface ApiDocument {
  info: { title: string; version: string; description?: string };
  paths: Record<string, Record<string, Operation>>;
  components: { schemas: Record<string, JsonSchema>; securitySchemes?: Record<string, unknown> };
  security?: Record<string, string[]>[];
}

/** The interface on one page that can be read without scripts, and printed. */
export function renderReference(document: ApiDocument) {
  const calls = Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({ path, method, operation })),
  );
  const tags = [...new Set(calls.map((call) => tagOf(call)))];
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Slipdrift: interface for programs</title>
<style>${raw(referenceStyle)}</style>
</head>
<body>
<header>
<p><a href="/">Slipdrift</a></p>
<h1>Interface for programs</h1>
<p>${document.info.description ?? ''}</p>
<p>${document.security === undefined ? 'No key is needed on this machine.' : 'Send the key with each request: Authorization: Bearer <key>.'}
The same as a document for tools: <a href="/api/openapi.json">/api/openapi.json</a> (OpenAPI 3.1).</p>
</header>
<nav aria-label="Calls">
${tags.map(
  (tag) => html`<section><h2>${tag}</h2><ul>
${calls
  .filter((call) => tagOf(call) === tag)
  .map(
    (call) =>
      html`<li><a href="#${anchor(call.method, call.path)}"><b>${call.method}</b> ${call.path}</a></li>`,
  )}
</ul></section>`,
)}
</nav>
<main>
${calls.map((call) => renderCall(call.path, call.method, call.operation))}
<h2 id="shapes">Shapes</h2>
${Object.entries(document.components.schemas).map(
  ([name, schema]) => html`<section id="shape-${name}"><h3>${name}</h3>
<p>${String(schema.description ?? '')}</p>${renderFields(schema)}</section>`,
)}
</main>
</body>
</html>`;
}

function renderCall(path: string, method: string, operation: Operation) {
  const body = Object.entries(operation.requestBody?.content ?? {});
  const answers = Object.entries(operation.responses ?? {});
  return html`<article id="${anchor(method, path)}">
<h3><b>${method}</b> ${path}</h3>
<p>${operation.summary ?? ''}</p>
${operation.description === undefined ? '' : html`<p>${operation.description}</p>`}
${
  (operation.parameters ?? []).length === 0
    ? ''
    : html`<table><caption>Asked with</caption><tbody>
${operation.parameters?.map(
  (
    parameter,
  ) => html`<tr><th scope="row"><code>${parameter.name}</code></th><td>${renderType(parameter.schema)}</td>
<td>${parameter.in}${parameter.required === true ? ', needed' : ''}</td>
<td>${parameter.description ?? String(parameter.schema?.description ?? '')}</td></tr>`,
)}</tbody></table>`
}
${
  body.length === 0
    ? ''
    : html`<table><caption>Body</caption><tbody>
${body.map(([type, { schema }]) => html`<tr><th scope="row"><code>${type}</code></th><td>${renderType(schema)}</td></tr>`)}
</tbody></table>`
}
<table><caption>Answers</caption><tbody>
${answers.map(
  ([status, answer]) => html`<tr><th scope="row">${status}</th><td>${answer.description}</td>
<td>${Object.values(answer.content ?? {}).map(({ schema }) => renderType(schema))}</td></tr>`,
)}</tbody></table>
</article>`;
}

function renderFields(schema: JsonSchema) {
  const fields = Object.entries((schema.properties ?? {}) as Record<string, JsonSchema>);
  if (fields.length === 0) return html`<p>${renderType(schema)}</p>`;
  const needed = new Set((schema.required ?? []) as string[]);
  return html`<table><tbody>${fields.map(
    ([name, field]) => html`<tr><th scope="row"><code>${name}</code></th><td>${renderType(field)}</td>
<td>${needed.has(name) ? 'needed' : field.default === undefined ? '' : `else ${JSON.stringify(field.default)}`}</td>
<td>${String(field.description ?? '')}</td></tr>`,
  )}</tbody></table>`;
}

/** A schema in a few words; named ones as a link. */
function renderType(schema: JsonSchema | undefined): ReturnType<typeof html> | string {
  if (schema === undefined) return '';
  if (typeof schema.$ref === 'string') {
    const name = schema.$ref.split('/').at(-1) ?? '';
    return html`<a href="#shape-${name}">${name}</a>`;
  }
  const choices = (schema.anyOf ?? schema.oneOf) as JsonSchema[] | undefined;
  if (choices !== undefined)
    return html`${choices.map((choice, i) => html`${i === 0 ? '' : ' or '}${renderType(choice)}`)}`;
  if (Array.isArray(schema.enum)) return schema.enum.map(String).join(' | ');
  if (schema.type === 'array') return html`list of ${renderType(schema.items as JsonSchema) || 'values'}`;
  const type = [schema.type ?? 'any value'].flat().join(' or ');
  const low = schema.minimum === undefined ? '' : `, from ${schema.minimum}`;
  const high = schema.maximum === undefined ? '' : `, to ${schema.maximum}`;
  return `${typeof schema.format === 'string' ? schema.format : type}${low}${high}`;
}

/** Calls without a tag of their own belong to their resource, the word after /api. */
const tagOf = ({ path, operation }: { path: string; operation: Operation }): string => {
  const resource = /^\/api\/(\w+)/.exec(path)?.[1] ?? 'Other';
  return operation.tags?.[0] ?? `${resource.charAt(0).toUpperCase()}${resource.slice(1)}`;
};
const anchor = (method: string, path: string): string => `${method}${path.replace(/[^\w]+/g, '-')}`;
