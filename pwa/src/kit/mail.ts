/** E-mail drafts by address: RFC 6068 (mailto), whose line breaks are %0D%0A. No file goes with one: it lies beside. */

/** Return the address that opens a draft to nobody yet. */
export function draftOf(subject: string, text: string): string {
  return `mailto:?subject=${encodeURIComponent(subject)}&body=${encodeURIComponent(text.replace(/\r?\n/g, "\r\n"))}`;
}
