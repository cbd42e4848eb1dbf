import type { Packet } from '#server/contract/packets.ts';

type Tree = Packet['tree'];

/** The way taken with what each of its steps could have led to, and nothing further off. */
export function keepPath({ nodes, path }: Tree): Tree {
  const onPath = new Set(path.map(({ node }) => node));
  const near = new Set(
    nodes.filter(({ id }) => onPath.has(id)).flatMap(({ branches }) => branches.map(({ to }) => to)),
  );
  return {
    path,
    nodes: nodes
      .filter(({ id }) => onPath.has(id) || near.has(id))
      .map((node) => (onPath.has(node.id) ? node : { ...node, branches: [] })),
  };
}
