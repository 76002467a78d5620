import { inDegrees } from '../words/index.js';
import { usePreferences } from './preferences.js';

/** What the server says, its degrees in the person's unit. Not for words that a person has typed. */
export function Told({ text }: { readonly text: string }) {
  return <>{inDegrees(text, usePreferences().temperatureUnit)}</>;
}
