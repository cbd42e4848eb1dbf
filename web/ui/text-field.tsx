import type { ComponentProps } from 'react';
import { FieldFrame, type FieldWords } from './field-frame.tsx';

type Props = FieldWords &
  Omit<ComponentProps<'input'>, 'onChange' | 'value'> & {
    value: string;
    onChange: (text: string) => void;
  };

export const TextField = ({ label, hint, error, value, onChange, type = 'text', ...rest }: Props) => (
  <FieldFrame label={label} hint={hint} error={error}>
    {(control) => (
      <input
        {...rest}
        {...control}
        type={type}
        value={value}
        onChange={(event) => onChange(event.target.value)}
      />
    )}
  </FieldFrame>
);
