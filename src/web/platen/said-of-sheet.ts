import { useLocalStorage } from '@mantine/hooks';

/** Ticks of an evenness sheet, kept on this device only; a reading says more than any tick. */
export interface SaidOfEvenness {
  readonly printed?: boolean;
  readonly pressed?: boolean;
}

export function useSaidOfEvenness(sheetId: string) {
  const [said, setSaid] = useLocalStorage<SaidOfEvenness>({
    key: `dyewright.evenness.${sheetId}`,
    defaultValue: {},
    getInitialValueInEffect: false,
  });
  return { said, say: (change: SaidOfEvenness) => setSaid((old) => ({ ...old, ...change })) };
}
