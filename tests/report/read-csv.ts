/** Records of RFC 4180 (section 2), by a reader written from its grammar. */

/** record = field *(COMMA field); field = escaped / non-escaped; escaped = DQUOTE *(… / 2DQUOTE) DQUOTE. */
export function records(csv: string): string[][] {
  const rows: string[][] = [];
  let at = csv.startsWith('\ufeff') ? 1 : 0;
  let row: string[] = [];
  while (at < csv.length) {
    const match = /"((?:[^"]|"")*)"|([^",\r\n]*)/y;
    match.lastIndex = at;
    const [all, escaped, plain] = match.exec(csv)!;
    row.push(escaped === undefined ? plain! : escaped.replaceAll('""', '"'));
    at += all.length;
    if (csv[at] === ',') at++;
    else if (csv.startsWith('\r\n', at)) {
      rows.push(row);
      row = [];
      at += 2;
    } else throw new Error(`neither a comma nor CRLF at ${at}`);
  }
  if (row.length > 0) throw new Error('the last line does not end');
  return rows;
}
