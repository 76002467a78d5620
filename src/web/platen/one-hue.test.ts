import { expect, it } from 'vitest';
import { contrast, type HueScale, inkOn, shadeRgb } from './one-hue.js';

const parse = (ink: string) => (ink === '#fff' ? [255, 255, 255] : [0, 0, 0]) as [number, number, number];

it('black on white is 21 : 1 (WCAG 2.2, definition of contrast ratio)', () => {
  expect(contrast([0, 0, 0], [255, 255, 255])).toBeCloseTo(21, 10);
  // #777777 on white is 4.48 : 1, the grey that just fails AA (WebAIM's example, from memory).
  expect(contrast([119, 119, 119], [255, 255, 255])).toBeCloseTo(4.48, 2);
});

it.each<HueScale>(['warmth', 'difference'])('figures stand out on every shade of %s: 4.5 : 1', (scale) => {
  let before = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= 200; i += 1) {
    const ground = shadeRgb(scale, i / 200);
    expect(contrast(ground, parse(inkOn(scale, i / 200)))).toBeGreaterThan(4.5);
    // Darker all the way: told without telling colours.
    const light = contrast(ground, [0, 0, 0]);
    expect(light).toBeLessThanOrEqual(before);
    before = light;
  }
});
