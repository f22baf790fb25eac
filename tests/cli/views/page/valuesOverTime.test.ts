import { parseHTML } from 'linkedom';
import { expect, test } from 'vitest';
import { valuesOverTimeChart } from '../../../../cli/views/page/charts/valuesOverTime.js';

test.each([1, 3])('%i days are named as days, not to the second', (days) => {
  const values = Array.from({ length: days }, (_, day) => ({
    at: new Date(2026, 2, 2 + 7 * day, 18, 4, 11, 230),
    value: 80 + day,
    uncertainty: 3,
  }));
  const chart = valuesOverTimeChart({
    ...{ title: 'Delivered', unit: '%', values, most: 100, trend: null, ariaDescription: '80 %' },
  });
  const texts = [
    ...parseHTML(`<html><body>${chart.text}</body></html>`).document.querySelectorAll('text'),
  ].map((one) => one.textContent);
  expect(texts.filter((text) => text?.includes('2026'))).toEqual(
    ['2 Mar 2026', '9 Mar 2026', '16 Mar 2026'].slice(0, days),
  );
});
