import { Fragment, useRef } from 'react';
import { Button } from '#web/ui/button.tsx';
import { useHotkey } from '#web/ui/use-hotkey.ts';
import styles from './shell.module.css';

const keys: readonly [readonly string[], string][] = [
  [['j', '↓'], 'next row of the list'],
  [['k', '↑'], 'row before'],
  [['Enter'], 'open or close the row'],
  [['o'], 'go to the vehicle'],
  [['c'], 'choose the row; with Shift all rows from the one before'],
  [['n'], 'numbers of a chart, or the picture again'],
  [['←', '→'], 'in the mileage chart: read stretch by stretch; with Shift move along'],
  [['+', '−', '0'], 'in the mileage chart: closer, wider, all'],
  [['m'], 'in the bay plan: take a card up; arrows, then Enter to put it down, Esc to give up'],
  [['b'], 'in the bay plan: book a vehicle in this bay on this day'],
  [['x'], 'in the bay plan: tick a proposal, or not'],
  [['/'], 'search for a unit number'],
  [['Esc'], 'leave the search, close what is open'],
  [['?'], 'this help'],
];

export function KeyboardHelp() {
  const dialog = useRef<HTMLDialogElement>(null);
  const open = () => dialog.current?.showModal();
  useHotkey({ '?': open });
  return (
    <>
      <button type="button" className={`${styles.tool} ${styles.helpButton}`} onClick={open}>
        Keyboard
      </button>
      <dialog ref={dialog} className={styles.dialog} aria-labelledby="keys-title" closedby="any">
        <h2 id="keys-title">By keyboard</h2>
        <dl className={styles.keys}>
          {keys.map(([names, does]) => (
            <Fragment key={does}>
              <dt>
                {names.map((name, i) => (
                  <Fragment key={name}>
                    {i > 0 && ' or '}
                    <kbd>{name}</kbd>
                  </Fragment>
                ))}
              </dt>
              <dd>{does}</dd>
            </Fragment>
          ))}
        </dl>
        <Button onClick={() => dialog.current?.close()}>Close</Button>
      </dialog>
    </>
  );
}
