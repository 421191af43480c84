using Broodtide.Phone.Browser;
using Broodtide.Phone.Keeping;
using Broodtide.Phone.Language;
using Broodtide.Workbench.Planning;
using NodaTime;

namespace Broodtide.Phone.Reminding;

/// <summary>
/// Shows a note of the browser when the time of an action comes while the app is open, or when it is woken after that.
/// It cannot wake anyone: with its screen dark a phone stops the page's clock.
/// </summary>
internal sealed class Nudges(Desk desk, Words words, ActionWords actions, PhoneClock clock)
{
    private const string Setting = "nudges";
    private const string ToldSetting = "nudged";
    private const int RememberedKeys = 60;

    // Whoever opens the app in the morning is told of the night, not of last week.
    private static readonly Duration Lately = Duration.FromHours(12);
    private static readonly Duration LongestStretch = Duration.FromHours(30);

    private bool _watching;
    private bool _telling;

    /// <summary>Whether the keeper wants them on this phone.</summary>
    public bool IsWanted => Glue.ReadSetting(Setting) == "on";

    /// <summary>Switches them on, asking the browser, or off. What is due already is not told again.</summary>
    public async Task<NotePermission> WantAsync(bool wanted)
    {
        var notices = wanted ? await Notes.AskForNoticesAsync() : await Notes.NoticesAsync();
        var isOn = wanted && notices is NotePermission.Allowed;
        Glue.WriteSetting(Setting, isOn ? "on" : null);
        if (isOn)
        {
            Remember([.. Begun().Select(action => action.Key)]);
        }

        return notices;
    }

    /// <summary>Looks now and then from here on.</summary>
    public void Watch()
    {
        if (!_watching)
        {
            _watching = true;
            desk.Changed += () => _ = TellAsync();
            _ = NowAndThenAsync();
        }
    }

    /// <summary>The actions whose time came lately.</summary>
    public IEnumerable<PlannedAction> Begun()
    {
        var now = clock.GetCurrentInstant();
        return desk.Outlook is { } outlook
            ? outlook
                .Due.Items.Select(item => item.Action)
                .Where(action => action.IsOpen && action.From <= now && action.From > now - Lately)
                .Where(action => action.By - action.From <= LongestStretch)
            : [];
    }

    private async Task NowAndThenAsync()
    {
        while (true)
        {
            await Task.Delay(TimeSpan.FromSeconds(30));
            await TellAsync();
        }
    }

    private async Task TellAsync()
    {
        if (_telling || !IsWanted)
        {
            return;
        }

        _telling = true;
        try
        {
            var told = Told();
            foreach (var action in Begun().Where(action => !told.Contains(action.Key)).ToList())
            {
                if (
                    await Notes.ShowAsync(
                        actions.Deed(action, desk.House),
                        words["remind.note.body"],
                        action.Key
                    )
                )
                {
                    Remember([action.Key]);
                }
            }
        }
        finally
        {
            _telling = false;
        }
    }

    private static string[] Told() => (Glue.ReadSetting(ToldSetting) ?? "").Split(' ');

    private static void Remember(IReadOnlyList<string> keys) =>
        Glue.WriteSetting(
            ToldSetting,
            string.Join(
                ' ',
                Told().Concat(keys).Where(key => key.Length > 0).Distinct().TakeLast(RememberedKeys)
            )
        );
}
