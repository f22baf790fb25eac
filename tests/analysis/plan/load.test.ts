import { describe, expect, it } from 'vitest';
import { formatLoad, loadInKilograms, parseLoad } from '../../../analysis/plan/load.js';
import { Failure } from '../../../core/failure.js';

describe('parseLoad', () => {
  it.each([
    ['20kg', { value: 20, unit: 'kg' }, '20 kg'],
    ['45 lb', { value: 45, unit: 'lb' }, '45 lb'],
    ['45lbs', { value: 45, unit: 'lb' }, '45 lb'],
    ['7,5 kg', { value: 7.5, unit: 'kg' }, '7.5 kg'],
    ['bodyweight', { value: null, unit: 'bodyweight' }, 'body weight'],
    ['Body weight', { value: null, unit: 'bodyweight' }, 'body weight'],
    ['pin 7', { value: 7, unit: 'pin' }, 'pin 7'],
  ] as const)('reads %s', (text, load, written) => {
    expect(parseLoad(text)).toEqual(load);
    expect(formatLoad(load)).toBe(written);
    expect(parseLoad(formatLoad(load))).toEqual(load);
  });

  it.each(['', '20', '-5kg', 'heavy', 'pin', '20 stone'])('refuses "%s"', (text) => {
    expect(() => parseLoad(text)).toThrow(Failure);
  });
});

describe('loadInKilograms', () => {
  it('turns pounds into kilograms by the definition of 1959', () => {
    expect(loadInKilograms({ value: 100, unit: 'lb' })).toBeCloseTo(45.359237, 9);
    expect(loadInKilograms({ value: 20, unit: 'kg' })).toBe(20);
    expect(loadInKilograms({ value: null, unit: 'bodyweight' })).toBeNull();
    expect(loadInKilograms({ value: 7, unit: 'pin' })).toBeNull();
  });
});
