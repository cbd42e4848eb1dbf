import { useId, useMemo } from 'react';
import { isZone, listZones, sayTimeAt } from '#web/format/zones.ts';
import { TextField } from '#web/ui/text-field.tsx';

interface Props {
  value: string;
  error: string | undefined;
  /** it is another than before, and what is booked moves with it */
  keepsTimes: boolean;
  onChange: (zone: string) => void;
}

/** A time zone by its name; typing a part of it finds it. */
export function ZoneField({ value, error, keepsTimes, onChange }: Props) {
  const id = useId();
  const zones = useMemo(listZones, []);
  const typed = value.trim();
  return (
    <>
      <TextField
        label="Time zone"
        hint={
          isZone(typed)
            ? `It is ${sayTimeAt(typed, new Date())} there now. ${keepsTimes ? 'What is booked keeps its day and its time of day.' : "Type a part of a city's name to find another."}`
            : "Type a part of a city's name."
        }
        error={error}
        list={`${id}-zones`}
        autoComplete="off"
        autoCapitalize="none"
        spellCheck={false}
        maxLength={64}
        value={value}
        onChange={onChange}
      />
      <datalist id={`${id}-zones`}>
        {zones.map((zone) => (
          <option key={zone} value={zone} />
        ))}
      </datalist>
    </>
  );
}
