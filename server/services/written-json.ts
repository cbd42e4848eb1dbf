/** An answer that is JSON already, as bytes: of what `JSON.stringify` would take long over. */
export interface WrittenJson<T> {
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** what it is of; never there */
  readonly of?: T;
}
