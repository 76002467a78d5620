import '@mantine/core/styles.css';
import '@mantine/dropzone/styles.css';
import './fonts.js';
import './tokens.css';
import './base.css';

export { cssVariables, theme } from './theme.js';
