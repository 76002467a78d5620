import {
  type CSSVariablesResolver,
  createTheme,
  defaultVariantColorsResolver,
  type MantineColorsTuple,
} from '@mantine/core';

/** The one accent: woad, a quiet blue. Shade 7 is used on light grounds, 3 on dark ones. */
const woad: MantineColorsTuple = [
  '#eef3f6',
  '#dce6ec',
  '#bfd1dc',
  '#9cbfd2',
  '#7aa3b9',
  '#5c89a1',
  '#467089',
  '#34566b',
  '#294556',
  '#1e3442',
];

/**
 * The library's greys, warmed to paper. Shade 4 of both edges fields and circles: at least 3 : 1 on their ground
 * (WCAG 2.2, 1.4.11).
 */
const gray: MantineColorsTuple = [
  '#fdfbf7',
  '#e3dccf',
  '#dcd5c8',
  '#d0c8b9',
  '#8a8274',
  '#7d7568',
  '#6b6459',
  '#5a544a',
  '#3d3933',
  '#292622',
];
const dark: MantineColorsTuple = [
  '#ebe6dd',
  '#d8d2c6',
  '#bab2a4',
  '#a59d8f',
  '#948c7e',
  '#4a463f',
  '#322f2b',
  '#292723',
  '#191815',
  '#141310',
];

export const theme = createTheme({
  white: '#fdfbf7',
  black: '#292622',
  colors: { woad, gray, dark },
  primaryColor: 'woad',
  primaryShade: { light: 7, dark: 3 },
  // The library works contrast out from the light ground alone; ours holds on both.
  variantColorResolver: (input) =>
    input.variant === 'filled'
      ? {
          background: 'var(--accent)',
          hover: 'var(--accent-strong)',
          color: 'var(--accent-ink)',
          border: 'none',
        }
      : defaultVariantColorsResolver(input),
  fontFamily: "'Source Sans 3 Variable', 'Source Sans 3', system-ui, sans-serif",
  headings: { fontFamily: "'Literata Variable', Literata, Georgia, serif", fontWeight: '560' },
  fontSizes: { xs: '0.9375rem', sm: '1rem', md: '1.0625rem', lg: '1.1875rem', xl: '1.375rem' },
  defaultRadius: 6,
  cursorType: 'pointer',
  respectReducedMotion: true,
  focusRing: 'auto',
});

/** Mantine's own colours, laid on ours so that every part of the page stands on the same ground. */
export const cssVariables: CSSVariablesResolver = () => {
  const both = {
    '--mantine-color-body': 'var(--frame)',
    '--mantine-color-text': 'var(--ink)',
    '--mantine-color-dimmed': 'var(--ink-soft)',
    '--mantine-color-placeholder': 'var(--ink-soft)',
    '--mantine-color-default': 'var(--raised)',
    '--mantine-color-default-hover': 'var(--hover)',
    '--mantine-color-default-color': 'var(--ink)',
    '--mantine-color-default-border': 'var(--line-strong)',
    '--mantine-color-anchor': 'var(--accent)',
    '--mantine-color-error': 'var(--stop)',
  };
  return { variables: {}, light: both, dark: both };
};
