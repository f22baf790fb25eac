/** Seconds to a tenth: finer than that no single camera can promise. */
export function secondsText(seconds: number): string {
  return seconds.toFixed(1);
}

/** A half width, rounded up to a tenth so that the interval on screen never claims more than was measured. */
export function uncertaintyText(seconds: number): string {
  return `±${(Math.ceil(seconds * 10 - 1e-9) / 10).toFixed(1)}`;
}

/** A moment in the film as players show it: minutes:seconds. */
export function filmTimeText(seconds: number): string {
  const whole = Math.floor(seconds + 1e-6);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

export function degreesText(degrees: number): string {
  return `${Math.round(degrees)}°`;
}

export function degreesUncertaintyText(degrees: number): string {
  return `±${Math.ceil(degrees - 1e-9)}`;
}

export function percentText(share: number): string {
  return `${Math.round(share * 100)} %`;
}

export function signedText(value: number, decimals: number): string {
  const text = Math.abs(value).toFixed(decimals);
  if (Number(text) === 0) return text;
  return `${value < 0 ? '−' : '+'}${text}`;
}
