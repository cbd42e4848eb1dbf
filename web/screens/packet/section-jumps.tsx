import { leadTo } from './lead-to.ts';
import styles from './packet-view.module.css';

/** Ways down a long page. Buttons and no addresses: behind # stands the secret of a link. */
export function SectionJumps({ sections }: { sections: readonly (readonly [string, string])[] }) {
  const go = (name: string) => leadTo(() => document.getElementById(`section-${name}`));
  return (
    <nav className={styles.jumps} aria-label="Parts of the packet">
      {sections.map(([name, word]) => (
        <button key={name} type="button" onClick={() => go(name)}>
          {word}
        </button>
      ))}
    </nav>
  );
}
