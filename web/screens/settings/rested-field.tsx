import { TextField } from '#web/ui/text-field.tsx';
import { useSearchText } from '#web/ui/use-search-text.ts';

interface Props {
  label: string;
  placeholder: string;
  value: string;
  onChange: (text: string) => void;
}

/** A search that asks once typing rests. */
export function RestedField({ label, placeholder, value, onChange }: Props) {
  const { text, type } = useSearchText(value, onChange);
  return (
    <TextField
      label={label}
      type="search"
      placeholder={placeholder}
      autoComplete="off"
      maxLength={100}
      value={text}
      onChange={(next) => type(next)}
    />
  );
}
