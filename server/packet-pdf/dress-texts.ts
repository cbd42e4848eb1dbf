import { PLAIN_FONT } from './paper-fonts.ts';
import { splitRuns } from './split-runs.ts';

/** The parts of a document in which text can stand. */
const holders = ['text', 'stack', 'columns', 'ul', 'ol', 'table', 'body'] as const;

function dressText(text: string): string | { text: string; font: string }[] {
  const runs = splitRuns(text);
  const [only] = runs;
  if (only === undefined) return '';
  return runs.length === 1 && only.font === PLAIN_FONT ? only.text : runs;
}

/** Gives every text of a document the faces that have its letters, so that no part of it has to think of them. */
export function dressTexts<Node>(node: Node): Node {
  if (typeof node === 'string') return dressText(node) as Node;
  if (Array.isArray(node))
    return node.map((each: unknown) =>
      typeof each === 'string' ? { text: dressText(each) } : dressTexts(each),
    ) as Node;
  if (node === null || typeof node !== 'object') return node;
  const dressed: Record<string, unknown> = { ...(node as object) };
  for (const key of holders) if (key in dressed) dressed[key] = dressTexts(dressed[key]);
  return dressed as Node;
}
