import { type CSSVariablesResolver, createTheme, type MantineColorsTuple } from '@mantine/core';

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

export const theme = createTheme({
  colors: { woad },
  primaryColor: 'woad',
  primaryShade: { light: 7, dark: 3 },
  autoContrast: true,
  luminanceThreshold: 0.34,
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
