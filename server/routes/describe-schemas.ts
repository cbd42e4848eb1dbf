import { z } from 'zod';

export type JsonSchema = Record<string, unknown>;

const ref = (id: string) => `#/components/schemas/${id}`;

/**
 * The named schemas of the contract as JSON Schema 2020-12, which OpenAPI 3.1 uses as it is. zod writes them itself:
 * the OpenAPI generator carries "or null" from one use of a named schema into all of them, and leaves flags at the end
 * of patterns.
 */
export function describeSchemas(wanted: Iterable<string>): Record<string, JsonSchema> {
  const all = z.toJSONSchema(z.globalRegistry, {
    io: 'input',
    unrepresentable: 'any',
    uri: ref,
    override: ({ jsonSchema }) => {
      if (jsonSchema.format === 'date-time' || jsonSchema.format === 'date') delete jsonSchema.pattern;
      if (jsonSchema.minimum === Number.MIN_SAFE_INTEGER) delete jsonSchema.minimum;
      if (jsonSchema.maximum === Number.MAX_SAFE_INTEGER) delete jsonSchema.maximum;
    },
  }).schemas as Record<string, JsonSchema>;
  const found: Record<string, JsonSchema> = {};
  const add = (id: string) => {
    const schema = all[id];
    if (schema === undefined || found[id] !== undefined) return;
    const { $schema: _, $id: __, id: ___, ...bare } = schema;
    found[id] = bare;
    for (const inner of namesWithin(bare)) add(inner);
  };
  for (const id of wanted) add(id);
  return Object.fromEntries(Object.entries(found).sort(([a], [b]) => a.localeCompare(b)));
}

/** Names of the schemas that a piece of a document refers to. */
export function namesWithin(piece: unknown): string[] {
  const text = JSON.stringify(piece) ?? '';
  return [...text.matchAll(/"\$ref":"#\/components\/schemas\/([^"]+)"/g)].map((match) => match[1] ?? '');
}
