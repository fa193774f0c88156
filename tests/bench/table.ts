/** Lines of cells as text: the first of each to the left, the rest to the right. */
export function tableText(lines: readonly (readonly string[])[]): string {
  const widths = lines[0]!.map((_, i) => Math.max(...lines.map((line) => line[i]!.length)));
  const cell = (text: string, i: number) => (i === 0 ? text.padEnd(widths[i]!) : text.padStart(widths[i]!));
  return lines.map((line) => `${line.map(cell).join('  ').trimEnd()}\n`).join('');
}
