import { useMemo, useRef, useState } from 'react';
import type { Packet } from '#server/contract/packets.ts';
import { orderTree } from '#web/charts/order-tree.ts';
import { layoutTree } from '#web/charts/tree-layout.ts';
import type { TreeText } from '#web/charts/tree-text.ts';
import { sayBranch, sayWork } from '#web/charts/tree-words.ts';
import { useWidth } from '#web/charts/use-width.ts';
import { Button } from '#web/ui/button.tsx';
import styles from './decision-tree.module.css';
import { keepPath } from './path-of-tree.ts';

/** The way that the findings take from step to step, and where other results would have led; all of it on demand. */
export function DecisionTree({ tree: whole }: { tree: Packet['tree'] }) {
  const [isWhole, setWhole] = useState(false);
  const tree = useMemo(() => (isWhole ? whole : keepPath(whole)), [whole, isWhole]);
  const ground = useRef<HTMLDivElement>(null);
  const widthPx = useWidth(ground);
  const laid = useMemo(
    () => (widthPx === 0 ? null : layoutTree(tree, { widthPx, sizePx: 14 })),
    [tree, widthPx],
  );
  return (
    <section className={styles.section} aria-label="Decision tree">
      <div className={styles.head}>
        <h3>How the findings lead on</h3>
        <Button kind="quiet" aria-expanded={isWhole} onClick={() => setWhole(!isWhole)}>
          {isWhole ? 'Only the way taken' : 'The whole tree'}
        </Button>
      </div>
      <div ref={ground} className={styles.ground}>
        {laid !== null && (
          <svg
            className={styles.tree}
            width={laid.widthPx}
            height={laid.heightPx}
            viewBox={`0 0 ${laid.widthPx} ${laid.heightPx}`}
            aria-hidden="true"
          >
            {laid.lines.map((line) => (
              <g key={line.key} data-taken={line.taken || undefined}>
                <path d={`M${line.points.map((point) => point.join(' ')).join('L')}`} />
                <Texts texts={line.texts} />
              </g>
            ))}
            {laid.boxes.map(({ key, kind, taken, last, x, y, width, height, texts }) => (
              <g key={key} data-taken={taken || undefined} data-last={last || undefined}>
                <rect x={x} y={y} width={width} height={height} rx={kind === 'end' ? 0 : 3} />
                <Texts texts={texts} />
              </g>
            ))}
          </svg>
        )}
      </div>
      <TreeInWords tree={tree} />
    </section>
  );
}

const Texts = ({ texts }: { texts: readonly TreeText[] }) =>
  texts.map(({ x, y, sizePx, text, strong, soft }) => (
    <text
      key={`${x} ${y}`}
      x={x}
      y={y}
      fontSize={sizePx}
      data-strong={strong || undefined}
      data-soft={soft || undefined}
    >
      {text}
    </text>
  ));

/** The same as a list, for who hears the page. */
function TreeInWords({ tree }: { tree: Packet['tree'] }) {
  return (
    <ol className="only-spoken">
      {orderTree(tree).map(({ node, place, toEnds, toSteps }) => (
        <li key={node.id}>
          {node.title}
          {place === 'next' && ', to do next'}
          {place === 'off' && ', not on the way taken'}
          <ul>
            {[...toSteps, ...toEnds].map((way) => (
              <li key={`${way.to.id} ${way.branch.says}`}>
                {sayBranch(way)}: {way.to.end === null ? `go on with ${way.to.title}` : way.to.end.words}
                {way.to.end !== null && `; ${sayWork(way.to.end)}`}
              </li>
            ))}
          </ul>
        </li>
      ))}
    </ol>
  );
}
