import { X } from "lucide-react";
import { notify, useNotices } from "../exchange/notices";
import { useView } from "../store/view";
import css from "./notices.module.css";

/** The notice that stands over the bench until it is answered, and the words that only a screen reader is told. */
export const Notices = () => {
  const notice = useNotices((state) => state.notice);
  const announcement = useView((state) => state.announcement);
  return (
    <>
      <div className={css.place} role={notice?.tone === "alert" ? "alert" : "status"}>
        {notice ? (
          <div className={css.notice} data-tone={notice.tone}>
            <p>{notice.text}</p>
            {notice.action ? (
              <button
                type="button"
                onClick={() => {
                  notify(null);
                  notice.action?.run();
                }}
              >
                {notice.action.words}
              </button>
            ) : null}
            <button type="button" className={css.close} aria-label="Close this notice" onClick={() => notify(null)}>
              <X aria-hidden size={18} />
            </button>
          </div>
        ) : null}
      </div>
      <div className="only-heard" role="status">
        {announcement}
      </div>
    </>
  );
};
