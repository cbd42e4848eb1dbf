import type { ComponentProps } from 'react';
import styles from './button.module.css';

interface Props extends ComponentProps<'button'> {
  /** `main`: what the screen is for; `quiet`: in a line of text; `grave`: what cannot be taken back */
  kind?: 'main' | 'plain' | 'quiet' | 'grave';
}

export const Button = ({ kind = 'plain', type = 'button', ...rest }: Props) => (
  <button {...rest} type={type} className={styles.button} data-kind={kind} />
);
