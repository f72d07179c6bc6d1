/** What the panel says and asks of a page that keeps the open workbook in the browser: the desk. */

/** A workbook kept in the browser. */
export interface KeptCopy {
  /** name of its file */
  name: string;
  /** as of when, by the person's own clock: yyyy-mm-ddThh:mm */
  at: string;
}

/** Why a workbook is not kept: the browser refuses, has no room, or the workbook is beyond what is read of a file. */
export type KeepTrouble = 'refused' | 'full' | 'large';

export interface Keeper {
  /** a workbook of before that waits to be opened again or forgotten */
  readonly offer: KeptCopy | undefined;
  /** changes of the open workbook are not kept while the other waits */
  readonly waits: boolean;
  /** the copy of the open workbook */
  readonly copy: KeptCopy | undefined;
  /** undefined while keeping works */
  readonly trouble: KeepTrouble | undefined;
  /** the open workbook is kept; false once its copy was forgotten */
  readonly keeps: boolean;
  /**
   * Opens the workbook that waits, in place of the one that is open; false where the person would rather stay.
   *
   * @throws Problem if it cannot be read
   */
  openAgain(): Promise<boolean>;
  /** takes away what is kept; the open workbook is not kept from then on, if the copy was its own */
  forget(): Promise<void>;
  /** keeps the open workbook after all */
  keepOn(): void;
  /**
   * Keeps the workbook as it is before some work and after it, and nothing half done: a page that is lost meanwhile leaves
   * the workbook as it was before.
   */
  whole<T>(work: () => Promise<T>): Promise<T>;
  /** calls back when any of it changes; gives what ends it */
  listen(listener: () => void): () => void;
}
