const MINUS = '\u2212';

/** A number as people read it: fixed decimals, a real minus sign, never "−0". */
export function decimal(value: number, digits: number): string {
  const text = Math.abs(value).toFixed(digits);
  return value < 0 && Number(text) !== 0 ? MINUS + text : text;
}

/** "4.1 s": to a tenth, finer than that no single camera can promise. */
export function secondsText(seconds: number, digits = 1): string {
  return `${decimal(seconds, digits)} s`;
}

/** "92°" */
export function degreesText(degrees: number): string {
  return `${decimal(degrees, 0)}°`;
}

/** "±0.1": half width of a 95 % interval, rounded up so that it never claims more than was measured. */
export function plusMinus(halfWidth: number, digits: number): string {
  const steps = 10 ** digits;
  return `±${decimal(Math.ceil(halfWidth * steps - 1e-9) / steps, digits)}`;
}

/** "86 %" from 0.86. */
export function percentText(share: number): string {
  return `${decimal(share * 100, 0)} %`;
}

/** "1:05.3": minutes and seconds on the clock of a film player. */
export function clockText(seconds: number): string {
  const tenths = Math.round(Math.max(0, seconds) * 10);
  const minutes = Math.floor(tenths / 600);
  return `${minutes}:${((tenths % 600) / 10).toFixed(1).padStart(4, '0')}`;
}

/** "1:05": a moment in the film as players show it, whole minutes and seconds. */
export function filmTimeText(seconds: number): string {
  const whole = Math.floor(seconds + 1e-6);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** "+0.3", "−0.3", "0.0": a difference, whose sign is part of what it says. */
export function signedText(value: number, digits: number): string {
  const text = decimal(value, digits);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
}
