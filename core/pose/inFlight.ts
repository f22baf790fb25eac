/**
 * Runs jobs side by side, up to a limit, so that whoever produces them is held back while all hands are busy.
 * The first job that fails stops the producer.
 */
export class InFlight {
  readonly #limit: number;
  readonly #open = new Set<Promise<void>>();
  #failure: { readonly error: unknown } | null = null;

  constructor(limit: number) {
    this.#limit = limit;
  }

  /** Starts a job as soon as there is room. @throws what an earlier job threw. */
  async add(job: () => Promise<void>): Promise<void> {
    this.#throwFailure();
    while (this.#open.size >= this.#limit) await Promise.race(this.#open);
    this.#throwFailure();
    const running: Promise<void> = job()
      .catch((error: unknown) => {
        this.#failure ??= { error };
      })
      .finally(() => this.#open.delete(running));
    this.#open.add(running);
  }

  /** Waits for all jobs. @throws what any job threw. */
  async settle(): Promise<void> {
    while (this.#open.size > 0) await Promise.all(this.#open);
    this.#throwFailure();
  }

  #throwFailure(): void {
    if (this.#failure !== null) throw this.#failure.error;
  }
}
