import { onEveryNode, splitByVehicle } from '#db/distribute/places.ts';

/** A node of EXPLAIN (format json), as far as it matters here. */
export interface PlanNode {
  'Node Type': string;
  'Relation Name'?: string;
  Alias?: string;
  'CTE Name'?: string;
  'Subplan Name'?: string;
  'Index Name'?: string;
  'Index Cond'?: string;
  Filter?: string;
  Plans?: PlanNode[];
}

/** Work in hand, a row a vehicle: whoever reads such a table and then others by its vehicles stays within these. */
const IN_HAND = /^(touched_vehicles|claimed_vehicles|incoming_\w+)$/;
const READINGS = /^readings(_y\d{4}m\d{2})?$/;

const isSplit = (relation: string) =>
  READINGS.test(relation) || (splitByVehicle as readonly string[]).includes(relation);

const isCopied = (relation: string) => (onEveryNode as readonly string[]).includes(relation);

/**
 * Scans of tables that are split by vehicle which do not go by the key of given vehicles: those would ask every machine, and
 * read what other vehicles have. Given are parameters, constants, lists, work in hand, and vehicles found by their own key.
 */
export function findCrossings(plan: PlanNode): string[] {
  const nodes = [...walk(plan)];
  return nodes
    .filter((node) => node['Relation Name'] !== undefined && isScan(node) && isSplit(node['Relation Name']))
    .filter((node) => !isBounded(node, nodes, new Set()))
    .map(
      (node) => `${node['Node Type']} of ${node['Relation Name']}: ${conditionOf(node) || 'no condition'}`,
    );
}

/** The tables split by vehicle that a plan reads or writes; a month of readings counts as readings. */
export const listSplitTables = (plan: PlanNode): string[] =>
  [...walk(plan)]
    .map((node) => node['Relation Name'] ?? '')
    .filter(isSplit)
    .map((name) => name.replace(READINGS, 'readings'));

function* walk(node: PlanNode): Generator<PlanNode> {
  yield node;
  for (const child of node.Plans ?? []) yield* walk(child);
}

const isScan = (node: PlanNode) => node['Node Type'].endsWith('Scan');

/** By what an index is read; of a bitmap that is said below it. */
const conditionOf = (node: PlanNode): string =>
  node['Node Type'] === 'Bitmap Heap Scan'
    ? [...walk(node)].map((below) => below['Index Cond'] ?? '').join(' ')
    : (node['Index Cond'] ?? '');

const anyConditionOf = (node: PlanNode): string => `${conditionOf(node)} ${node.Filter ?? ''}`;

function isBounded(node: PlanNode, nodes: readonly PlanNode[], seen: Set<PlanNode>): boolean {
  if (seen.has(node)) return false;
  seen.add(node);
  const relation = node['Relation Name'];
  if (relation !== undefined) {
    if (IN_HAND.test(relation)) return true;
    if (isSplit(relation)) return isGiven(conditionOf(node), /\bvehicle = /, nodes, seen);
    if (relation === 'vehicles') return isGiven(conditionOf(node), /\b(?:key|unit) = /, nodes, seen);
    // Small enough to be read whole, as long as few vehicles come out of it.
    return isCopied(relation) && isGiven(anyConditionOf(node), /\b(?:vehicle|id) = /, nodes, seen);
  }
  const type = node['Node Type'];
  if (type === 'Function Scan' || type === 'Values Scan' || type === 'Result') return true;
  const below =
    type === 'CTE Scan'
      ? nodes.filter((one) => one['Subplan Name'] === `CTE ${node['CTE Name']}`)
      : (node.Plans ?? []);
  return below.length > 0 && below.every((one) => isPartBounded(one, nodes, seen));
}

/** A part whose vehicles are given: every scan in it that could bring others in is bounded. */
function isPartBounded(part: PlanNode, nodes: readonly PlanNode[], seen: Set<PlanNode>): boolean {
  const sources = [...walk(part)].filter((node) => {
    const relation = node['Relation Name'];
    if (!isScan(node) || node['Node Type'] === 'Bitmap Index Scan') return false;
    return relation === undefined || relation === 'vehicles' || IN_HAND.test(relation) || isSplit(relation);
  });
  return sources.length > 0 && sources.every((node) => isBounded(node, nodes, new Set(seen)));
}

const NAME = String.raw`("[^"]+"|\w+)\.(?:"[^"]+"|\w+)`;
const VALUE = new RegExp(String.raw`^(?:ANY \((.+)|\(InitPlan|\$\d+|'|-?\d|${NAME})`);
const QUALIFIED = new RegExp(String.raw`^\(*${NAME}`);

/** Whether a condition sets the column equal to what is given, or to what a bounded node brings. */
function isGiven(
  condition: string,
  column: RegExp,
  nodes: readonly PlanNode[],
  seen: Set<PlanNode>,
): boolean {
  const at = column.exec(condition);
  if (at === null) return false;
  const value = condition.slice(at.index + at[0].length).replace(/^\(*(?=[\w"*]+\.)/, '');
  const match = VALUE.exec(value);
  if (match === null) return false;
  const alias = (match[2] ?? QUALIFIED.exec(match[1] ?? '')?.[1])?.replaceAll('"', '');
  if (alias === undefined) return true;
  const sources = nodes.filter((node) => node.Alias === alias);
  return sources.length > 0 && sources.every((node) => isBounded(node, nodes, seen));
}
