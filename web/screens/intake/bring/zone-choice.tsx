import { useId, useMemo, useState } from 'react';
import { findCity, isZone, listZones, sayTimeAt } from '#web/format/zones.ts';
import { SelectField } from '#web/ui/select-field.tsx';
import { TextField } from '#web/ui/text-field.tsx';

interface Props {
  /** with the mapping */
  kept: string | null;
  /** with this delivery alone */
  given: string;
  onChange: (kept: string | null, given: string) => void;
}

const isUsable = (text: string): boolean => isZone(text) || /^[+-]\d{2}:\d{2}$/.test(text);

/** In which time zone clocks stood that say none. */
export function ZoneChoice({ kept, given, onChange }: Props) {
  const id = useId();
  const zones = useMemo(listZones, []);
  const [isForOnce, setIsForOnce] = useState(given !== '');
  const value = isForOnce ? given : (kept ?? '');
  const [text, setText] = useState(value);
  const [told, setTold] = useState(value);
  // Another mapping brings another zone.
  if (value !== told) {
    setTold(value);
    setText(value);
  }
  const typed = text.trim();
  /** A zone that is typed in part is not looked up. */
  const put = (zone: string, once: boolean) => {
    if (zone !== '' && !isUsable(zone)) return;
    setTold(zone);
    if (once) onChange(null, zone);
    else onChange(zone === '' ? null : zone, '');
  };
  return (
    <>
      <div>
        <TextField
          label="Time zone of clocks that say none"
          hint={
            isZone(typed)
              ? `It is ${sayTimeAt(typed, new Date())} there now.`
              : "Type a part of a city's name, or an offset such as +02:00."
          }
          error={
            typed === '' || isUsable(typed) ? undefined : 'Neither a zone that is known here nor an offset.'
          }
          list={`${id}-zones`}
          autoComplete="off"
          autoCapitalize="none"
          spellCheck={false}
          maxLength={64}
          value={text}
          onChange={(zone) => {
            setText(zone);
            put(zone.trim(), isForOnce);
          }}
          onBlur={() => {
            const zone = isUsable(typed) ? null : findCity(typed, zones);
            if (zone === null) return;
            setText(zone);
            put(zone, isForOnce);
          }}
        />
        <datalist id={`${id}-zones`}>
          {zones.map((zone) => (
            <option key={zone} value={zone} />
          ))}
        </datalist>
      </div>
      {value !== '' && (
        <SelectField
          label="The zone is kept"
          value={isForOnce ? 'once' : 'kept'}
          options={[
            { value: 'kept', label: 'with how the file is read' },
            { value: 'once', label: 'not: another time it is another' },
          ]}
          onChange={(choice) => {
            setIsForOnce(choice === 'once');
            put(value, choice === 'once');
          }}
        />
      )}
    </>
  );
}
