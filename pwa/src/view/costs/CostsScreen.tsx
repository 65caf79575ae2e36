export function CostsScreen() {
  return <p>soon</p>;
}
