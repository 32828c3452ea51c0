/** The text of a file that lies beside the page, as in `samples/juice-press.drive.json`. Rejects where it can't be fetched. */
export const textBeside = async (path: string): Promise<string> => {
  const answer = await fetch(new URL(path, document.baseURI));
  if (!answer.ok) throw new Error(String(answer.status));
  return answer.text();
};
