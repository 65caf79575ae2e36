export function MeScreen() {
  return <p>soon</p>;
}
