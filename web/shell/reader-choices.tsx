import { useEffect, useRef } from 'react';
import { accessKey } from '#web/api/access-key.ts';
import { ChoiceGroup } from '#web/ui/choice-group.tsx';
import { themeChoice } from '#web/ui/use-theme.ts';
import { distanceChoice, temperatureChoice } from '#web/ui/use-units.ts';
import styles from './shell.module.css';

/** Units and ground, as this reader likes them. */
export function ReaderChoices() {
  const panel = useRef<HTMLDetailsElement>(null);
  const distance = distanceChoice.use();
  const temperature = temperatureChoice.use();
  const theme = themeChoice.use();
  const key = accessKey.use();

  useEffect(() => {
    const close = (event: Event) => {
      const details = panel.current;
      if (details === null || !details.open) return;
      if (event instanceof KeyboardEvent) {
        if (event.key !== 'Escape') return;
        details.querySelector('summary')?.focus();
      } else if (event.target instanceof Node && details.contains(event.target)) return;
      details.open = false;
    };
    document.addEventListener('pointerdown', close);
    document.addEventListener('keydown', close);
    return () => {
      document.removeEventListener('pointerdown', close);
      document.removeEventListener('keydown', close);
    };
  }, []);

  return (
    <details className={styles.choices} ref={panel}>
      <summary className={styles.tool}>
        <span className="only-spoken">Units and ground: </span>
        {distance} · °{temperature} · {theme}
      </summary>
      <div className={styles.panel}>
        <ChoiceGroup
          legend="Distance"
          name="distance"
          value={distance}
          onChoose={distanceChoice.set}
          options={[
            { value: 'km', label: 'km', spoken: 'kilometres' },
            { value: 'mi', label: 'mi', spoken: 'miles' },
          ]}
        />
        <ChoiceGroup
          legend="Temperature"
          name="temperature"
          value={temperature}
          onChoose={temperatureChoice.set}
          options={[
            { value: 'C', label: '°C', spoken: 'degrees Celsius' },
            { value: 'F', label: '°F', spoken: 'degrees Fahrenheit' },
          ]}
        />
        <ChoiceGroup
          legend="Ground"
          name="theme"
          value={theme}
          onChoose={themeChoice.set}
          options={[
            { value: 'auto', label: 'auto' },
            { value: 'light', label: 'light' },
            { value: 'dark', label: 'dark' },
          ]}
        />
        {key === 'held' && (
          <button type="button" className={styles.button} onClick={accessKey.forget}>
            Forget the key
          </button>
        )}
      </div>
    </details>
  );
}
