interface File {
  url: string;
}
export function inOrder<F extends File>(files: F[]): F[];
