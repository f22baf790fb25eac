import { Failure } from '../../core/failure.js';

/** What was moved. `value` is null for body weight. */
export interface Load {
  readonly value: number | null;
  readonly unit: 'kg' | 'lb' | 'bodyweight' | 'pin';
}

/** The avoirdupois pound in kilograms, exact by definition (international yard and pound agreement, 1959). */
const KILOGRAMS_PER_POUND = 0.45359237;

/**
 * Reads a load: `20kg`, `45 lb`, `bodyweight`, `pin 7` (the place of the pin in a weight stack).
 *
 * @throws Failure (usage) where it is none of these.
 */
export function parseLoad(text: string): Load {
  const plain = text.trim().toLowerCase();
  if (/^body[\s-]?weight$/.test(plain)) return { value: null, unit: 'bodyweight' };
  const pin = /^pin\s*(\d+(?:\.\d+)?)$/.exec(plain);
  if (pin !== null) return { value: Number(pin[1]), unit: 'pin' };
  const mass = /^(\d+(?:[.,]\d+)?)\s*(kg|kilograms?|kilos?|lbs?|pounds?)$/.exec(plain);
  if (mass !== null) {
    return { value: Number(mass[1]!.replace(',', '.')), unit: mass[2]!.startsWith('k') ? 'kg' : 'lb' };
  }
  throw new Failure('usage', `The load "${text}" cannot be read.`, 'Write 20kg, 45lb, bodyweight or pin 7.');
}

/** Writes a load for people: `20 kg`, `45 lb`, `body weight`, `pin 7`. */
export function formatLoad(load: Load): string {
  if (load.unit === 'bodyweight') return 'body weight';
  return load.unit === 'pin' ? `pin ${load.value}` : `${load.value} ${load.unit}`;
}

/** The load in kilograms, or null where it has no mass that is known (body weight, pin). */
export function loadInKilograms(load: Load): number | null {
  if (load.value === null) return null;
  if (load.unit === 'kg') return load.value;
  return load.unit === 'lb' ? load.value * KILOGRAMS_PER_POUND : null;
}
