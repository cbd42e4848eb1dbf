/** Leads to the first field at fault, after the faults are drawn: on a phone it is often out of sight. */
export function focusFault(form: HTMLFormElement | null): void {
  requestAnimationFrame(() => {
    const first = form?.querySelector<HTMLElement>('[aria-invalid="true"], [data-fault] input');
    first?.focus({ preventScroll: true });
    first?.scrollIntoView({ block: 'center' });
  });
}
