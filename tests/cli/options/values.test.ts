import { InvalidArgumentError } from '@commander-js/extra-typings';
import { describe, expect, it } from 'vitest';
import {
  parseCount,
  parseFilmTime,
  parseNumberFromZero,
  parsePointInFilm,
  parseSpeedFactor,
  parseWorkers,
} from '../../../cli/options/values.js';

describe('option values', () => {
  it.each([
    ['75.5', 75.5],
    ['0', 0],
    ['1:15.5', 75.5],
    ['0:05', 5],
    ['12:00', 720],
  ])('reads %s as film time', (text, seconds) => {
    expect(parseFilmTime(text)).toBe(seconds);
  });

  it.each(['', '-3', '1:75', 'soon', '1:2:3', 'NaN', '1e3'])('refuses %j as film time', (text) => {
    expect(() => parseFilmTime(text)).toThrow(InvalidArgumentError);
  });

  it('refuses counts and numbers out of their range', () => {
    expect(parseCount('4')).toBe(4);
    expect(() => parseCount('0')).toThrow(InvalidArgumentError);
    expect(() => parseCount('1.5')).toThrow(InvalidArgumentError);
    expect(parseSpeedFactor('0.25')).toBe(0.25);
    for (const text of ['0', '-4', '0.001', '1001', '4x'])
      expect(() => parseSpeedFactor(text)).toThrow(InvalidArgumentError);
    expect(parseWorkers('64')).toBe(64);
    // Every worker takes memory: a slip of the finger must not take it all.
    for (const text of ['0', '65', '100000', '1.5'])
      expect(() => parseWorkers(text)).toThrow(InvalidArgumentError);
    expect(parseNumberFromZero('0')).toBe(0);
    expect(() => parseNumberFromZero('-1')).toThrow(InvalidArgumentError);
  });

  it('reads a point in the film', () => {
    expect(parsePointInFilm('240,310@0:05')).toEqual({
      x: 240,
      y: 310,
      seconds: 5,
      asGiven: '240,310@0:05',
    });
    expect(() => parsePointInFilm('240x310')).toThrow(InvalidArgumentError);
  });
});
