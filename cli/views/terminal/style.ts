import picocolors from 'picocolors';

export type Colors = ReturnType<typeof picocolors.createColors>;

/** How wide the screen is, in characters, and whether it takes colour. */
export interface Style {
  readonly width: number;
  readonly colors: Colors;
}

/** Text for files, pipes and tests. */
export const PLAIN_STYLE: Style = { width: 80, colors: picocolors.createColors(false) };

const NARROWEST = 40;
const WIDEST = 100;

/** The style for a stream: colour only in a terminal or where `FORCE_COLOR` asks for it, and never against `NO_COLOR`. */
export function styleOf(stream: NodeJS.WriteStream): Style {
  const width = Math.min(WIDEST, Math.max(NARROWEST, stream.columns ?? PLAIN_STYLE.width));
  const wanted = stream.isTTY === true || (process.env['FORCE_COLOR'] ?? '') !== '';
  return { width, colors: picocolors.createColors(wanted && picocolors.isColorSupported) };
}
