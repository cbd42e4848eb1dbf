import { useRef } from 'react';
import { ChoiceGroup } from '#web/ui/choice-group.tsx';
import { useCloseOutside } from '#web/ui/use-close-outside.ts';
import { themeChoice } from '#web/ui/use-theme.ts';
import { distanceChoice, temperatureChoice } from '#web/ui/use-units.ts';
import styles from './shell.module.css';

/** Units and ground, as this reader likes them. */
export function ReaderChoices() {
  const panel = useRef<HTMLDetailsElement>(null);
  const distance = distanceChoice.use();
  const temperature = temperatureChoice.use();
  const theme = themeChoice.use();
  useCloseOutside(panel);
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
      </div>
    </details>
  );
}
