using System.Globalization;
using Broodtide.Phone.Browser;
using NodaTime;

namespace Broodtide.Phone.Keeping;

/// <summary>
/// How far this phone's clock stands from the house's, by the time that the server's answers bear. Known from the
/// last meeting on, also without a network; a clock put right is believed at the next one. Entries keep the times
/// that this phone tells; those written while its clock was off are marked.
/// </summary>
/// <param name="read">Reads a text of the phone's store by name.</param>
/// <param name="write">Keeps a text under a name, or forgets it.</param>
internal sealed class HouseClock(Func<string, string?> read, Func<string, string?, bool> write)
{
    /// <summary>Less is a clock that nobody set; more moves a gathering into another hour, and is said.</summary>
    public static readonly Duration Slack = Duration.FromMinutes(10);

    // Enough to tell a keeper who writes for months with a clock that jumps about.
    private const int MostStretches = 40;
    private const string OffSetting = "clock.off";
    private const string StretchSetting = "clock.stretches";

    // Answers bear whole seconds.
    private static readonly Duration Grain = Duration.FromSeconds(1);

    private Duration? _off;
    private List<Stretch>? _stretches;

    /// <summary>It is not what it was.</summary>
    public event Action? Changed;

    /// <summary>How far ahead this phone is of the house, behind if negative; zero unless it is more than the slack.</summary>
    public Duration Off
    {
        get => _off ??= Milliseconds(read(OffSetting));
        private set
        {
            if (value != Off)
            {
                _off = value;
                write(OffSetting, value == Duration.Zero ? null : Text(value));
                Changed?.Invoke();
            }
        }
    }

    /// <summary>An answer of the server.</summary>
    /// <param name="house">The time that it bears.</param>
    /// <param name="asked">This phone's clock when the question went out.</param>
    /// <param name="answered">This phone's clock when the answer came.</param>
    public void Heard(Instant house, Instant asked, Instant answered)
    {
        var way = (answered - asked) / 2;
        // A clock that was set meanwhile tells nothing.
        if (way < Duration.Zero)
        {
            return;
        }

        var off = asked + way - house;
        var doubt = way + Grain;
        var far = off < Duration.Zero ? -off : off;
        Off =
            far - doubt > Slack ? Duration.FromMinutes(Math.Round(off.TotalMinutes))
            : far + doubt < Slack ? Duration.Zero
            : Off;
    }

    /// <summary>An entry was written at this time of the phone's: while the clock is off, that is remembered.</summary>
    public void Wrote(Instant written)
    {
        // Kept to the millisecond, before and after.
        var from = Instant.FromUnixTimeMilliseconds(written.ToUnixTimeMilliseconds());
        var until = from + Duration.FromMilliseconds(1);
        if (Off == Duration.Zero)
        {
            return;
        }

        var all = Stretches;
        if (all is [.., var last] && last.Off == Off && from >= last.From)
        {
            all[^1] = last with { Until = until };
        }
        else
        {
            all.Add(new(from, until, Off));
            all.RemoveRange(0, Math.Max(0, all.Count - MostStretches));
        }

        write(StretchSetting, string.Join(';', all.Select(stretch => stretch.Text)));
    }

    /// <summary>How far off the clock was when an entry of this phone was written; zero where it was right.</summary>
    public Duration OffAt(Instant written) =>
        Stretches.LastOrDefault(stretch => stretch.From <= written && written <= stretch.Until)?.Off
        ?? Duration.Zero;

    private List<Stretch> Stretches =>
        _stretches ??= [
            .. (read(StretchSetting) ?? "")
                .Split(';', StringSplitOptions.RemoveEmptyEntries)
                .Select(Stretch.Read)
                .OfType<Stretch>(),
        ];

    private static string Text(Duration duration) =>
        ((long)duration.TotalMilliseconds).ToString(CultureInfo.InvariantCulture);

    private static Duration Milliseconds(string? text) =>
        long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var read)
            ? Duration.FromMilliseconds(read)
            : Duration.Zero;

    private sealed record Stretch(Instant From, Instant Until, Duration Off)
    {
        public string Text =>
            string.Create(
                CultureInfo.InvariantCulture,
                $"{From.ToUnixTimeMilliseconds()} {Until.ToUnixTimeMilliseconds()} {(long)Off.TotalMilliseconds}"
            );

        // A stretch that another version wrote in another way is none.
        public static Stretch? Read(string text)
        {
            var parts = text.Split(' ');
            return
                parts.Length == 3
                && long.TryParse(parts[0], CultureInfo.InvariantCulture, out var from)
                && long.TryParse(parts[1], CultureInfo.InvariantCulture, out var until)
                && long.TryParse(parts[2], CultureInfo.InvariantCulture, out var off)
                ? new(
                    Instant.FromUnixTimeMilliseconds(from),
                    Instant.FromUnixTimeMilliseconds(until),
                    Duration.FromMilliseconds(off)
                )
                : null;
        }
    }
}

/// <summary>Reads the time that every answer of the server bears, on its way to whoever asked.</summary>
internal sealed class HouseClockReader(HouseClock house, PhoneClock phone) : DelegatingHandler
{
    protected override async Task<HttpResponseMessage> SendAsync(
        HttpRequestMessage request,
        CancellationToken cancellationToken
    )
    {
        var asked = phone.GetCurrentInstant();
        var answer = await base.SendAsync(request, cancellationToken);
        if (answer.Headers.Date is { } date)
        {
            house.Heard(Instant.FromDateTimeOffset(date), asked, phone.GetCurrentInstant());
        }

        return answer;
    }
}
