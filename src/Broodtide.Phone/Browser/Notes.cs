using System.Runtime.InteropServices.JavaScript;

namespace Broodtide.Phone.Browser;

/// <summary>What the browser says to notes on the screen.</summary>
internal enum NotePermission
{
    /// <summary>It has none.</summary>
    Absent,

    /// <summary>It was not asked.</summary>
    Unasked,

    /// <summary>It shows them.</summary>
    Allowed,

    /// <summary>It was told not to.</summary>
    Refused,
}

/// <summary>Notes that the browser shows, paper, and the clipboard.</summary>
internal static partial class Notes
{
    private const string Module = "reminders";

    private static Task? _loading;

    /// <summary>Copies a text; false where the browser does not let.</summary>
    public static async Task<bool> CopyAsync(string text)
    {
        await LoadAsync();
        return await Copy(text);
    }

    /// <summary>Opens the browser's own way to paper.</summary>
    public static async Task PrintAsync()
    {
        await LoadAsync();
        Print();
    }

    /// <summary>How notes stand.</summary>
    public static async Task<NotePermission> NoticesAsync()
    {
        await LoadAsync();
        return Read(NoticeState());
    }

    /// <summary>Asks the keeper; only ever after a tap.</summary>
    public static async Task<NotePermission> AskForNoticesAsync()
    {
        await LoadAsync();
        return Read(await AskForNotices());
    }

    /// <summary>Shows a note; one with the same tag takes its place. False where none was shown.</summary>
    public static async Task<bool> ShowAsync(string title, string body, string tag)
    {
        await LoadAsync();
        return await ShowNotice(title, body, tag);
    }

    private static Task LoadAsync() => _loading ??= JSHost.ImportAsync(Module, "../js/reminders.js");

    private static NotePermission Read(string state) =>
        state switch
        {
            "granted" => NotePermission.Allowed,
            "denied" => NotePermission.Refused,
            "default" => NotePermission.Unasked,
            _ => NotePermission.Absent,
        };

    [JSImport("copy", Module)]
    private static partial Task<bool> Copy(string text);

    [JSImport("print", Module)]
    private static partial void Print();

    [JSImport("noticeState", Module)]
    private static partial string NoticeState();

    [JSImport("askForNotices", Module)]
    private static partial Task<string> AskForNotices();

    [JSImport("showNotice", Module)]
    private static partial Task<bool> ShowNotice(string title, string body, string tag);
}
