// Reminders: notes that the browser shows, paper, and the clipboard. No rules, no words.

export async function copy(text) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch { return false; }
}

export const print = () => window.print();

// absent, default, granted, denied
export const noticeState = () =>
  'Notification' in window && 'serviceWorker' in navigator ? Notification.permission : 'absent';

export async function askForNotices() {
  try { return await Notification.requestPermission(); } catch { return 'denied'; }
}

// Shown by the service worker's registration, so that it stays when the page is left. Without one, nothing is shown.
export async function showNotice(title, body, tag) {
  try {
    const registration = await navigator.serviceWorker.getRegistration();
    if (!registration?.active) return false;
    await registration.showNotification(title, { body, tag, icon: 'icons/broodtide-192.png' });
    return true;
  } catch { return false; }
}
