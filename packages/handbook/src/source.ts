/** Where a figure comes from, in words for a person: the standard or book, and how far it was checked. */
export type Source = string;

/** A published table: its rows and, beside them, where they come from. */
export interface Table<Row> {
  readonly source: Source;
  readonly rows: readonly Row[];
}
