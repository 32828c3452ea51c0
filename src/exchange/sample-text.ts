/** The text of a sample's file, from beside the page. Rejects where it can't be fetched. */
export const sampleText = async (file: string): Promise<string> => {
  const answer = await fetch(new URL(`samples/${file}.drive.json`, document.baseURI));
  if (!answer.ok) throw new Error(String(answer.status));
  return answer.text();
};
