/** What is written over the picture (labels, handles) is put in its place once a frame, by whoever draws the picture. */
type Place = () => void;
const places = new Set<Place>();

export function onPlace(place: Place): () => void {
  places.add(place);
  return () => places.delete(place);
}

export function placeOverlay(): void {
  for (const place of places) place();
}
