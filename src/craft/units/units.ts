/** Exact conversions. 1 in = 25.4 mm (international inch, 1959); 1 pt = 1/72 in (ISO 32000-1, 8.3.2.3). */
export const mmPerInch = 25.4;
export const pointsPerInch = 72;

export const mmToInches = (mm: number): number => mm / mmPerInch;
export const inchesToMm = (inches: number): number => inches * mmPerInch;
export const mmToPoints = (mm: number): number => (mm / mmPerInch) * pointsPerInch;
export const mmToPixels = (mm: number, ppi: number): number => (mm / mmPerInch) * ppi;
/** Celsius to Fahrenheit, exact by definition. */
export const celsiusToFahrenheit = (celsius: number): number => celsius * 1.8 + 32;
export const fahrenheitToCelsius = (fahrenheit: number): number => (fahrenheit - 32) / 1.8;
