/** One thing that the program needs, looked at on this machine. */
export interface Check {
  readonly name: string;
  readonly state: 'ok' | 'mind' | 'missing';
  /** What was found, in a few words. */
  readonly detail: string;
  /** What to do; null where nothing is to be done. */
  readonly remedy: string | null;
}
