import { type Command, InvalidArgumentError, type OptionValues } from '@commander-js/extra-typings';

/** The option of every command that opens the history. */
export function withHistoryOption<
  // biome-ignore lint/suspicious/noExplicitAny: the bound that the typings of commander set themselves
  Arguments extends any[],
  Options extends OptionValues,
  Globals extends OptionValues,
>(command: Command<Arguments, Options, Globals>) {
  return command.option('--history <file>', 'the history file to use instead of the usual one');
}

const DAYS_IN = { day: 1, week: 7, month: 30.44, year: 365.25 } as const;

/**
 * Reads the start of a period: a day (`2026-03-01`, its local midnight) or a length of time (`6 weeks`, counted back).
 *
 * @returns ISO 8601, UTC.
 */
export function parseSince(text: string, now: Date = new Date()): string {
  const period = /^(\d+)\s*(day|week|month|year)s?$/i.exec(text.trim());
  if (period !== null) {
    const days = Number(period[1]) * DAYS_IN[period[2]!.toLowerCase() as keyof typeof DAYS_IN];
    return new Date(now.getTime() - days * 86_400_000).toISOString();
  }
  const day = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text.trim());
  const date = day === null ? null : new Date(Number(day[1]), Number(day[2]) - 1, Number(day[3]));
  if (date === null || date.getDate() !== Number(day![3]) || date.getMonth() !== Number(day![2]) - 1) {
    throw new InvalidArgumentError('Give a day (2026-03-01) or a length of time ("6 weeks").');
  }
  return date.toISOString();
}
