/** Numbers as the reader's country writes them. Data stays in millimetres; only what is shown is formatted. */
const THIN_SPACE = '\u2009';

const formats = new Map<string, Intl.NumberFormat>();

/** @param digits decimals at most; needless zeros are left out */
export function number(value: number, digits = 1, locale: string = navigator.language): string {
  const key = `${locale} ${digits}`;
  let format = formats.get(key);
  if (!format) {
    format = new Intl.NumberFormat(locale, { maximumFractionDigits: digits });
    formats.set(key, format);
  }
  return format.format(Object.is(value, -0) ? 0 : value);
}

/** `1,250 mm`, with a thin space before the unit. */
export const quantity = (value: number, unit: string, digits = 1, locale?: string): string =>
  `${number(value, digits, locale)}${THIN_SPACE}${unit}`;

/** Heights of storeys, as drawings write them: `+3.40 m`. */
export function level(elevation: number, locale: string = navigator.language): string {
  const format = new Intl.NumberFormat(locale, { minimumFractionDigits: 2, maximumFractionDigits: 2 });
  // Rounded before its sign is asked for: a hair under zero is zero.
  const metres = Math.round(elevation / 10) / 100;
  return `${metres < 0 ? '\u2212' : '+'}${format.format(Math.abs(metres))}${THIN_SPACE}m`;
}
