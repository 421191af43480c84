using System.Globalization;
using System.Text;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Phone.Language;
using Broodtide.Phone.Pictures;
using Broodtide.Workbench.Pooling;
using Broodtide.Workbench.Species;
using Microsoft.AspNetCore.Components;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Phone.Pages.Species;

/// <summary>What the runs say of a species' numbers: heard once in slices, pooled anew at each wish.</summary>
public sealed partial class LearnedPage
{
    private readonly HashSet<string> _without = new(StringComparer.OrdinalIgnoreCase);
    private readonly HashSet<string> _open = new(StringComparer.Ordinal);
    private readonly Dictionary<string, IReadOnlyList<NumberMove>> _moves = new(StringComparer.Ordinal);
    private string _code = "";
    private string _species = "";
    private string _said = "";
    private bool _failed;
    private bool _withOthers;
    private bool _hasOthers;
    private RunsHeard? _heard;
    private Workbench.Outlook? _outlook;
    private IReadOnlyList<PooledNumber>? _numbers;
    private CancellationTokenSource _stop = new();

    /// <summary>The species; that of the house if left out.</summary>
    [SupplyParameterFromQuery(Name = "of")]
    public string? Of { get; set; }

    /// <summary>The instant to tell it for, ISO 8601 in UTC; now if left out.</summary>
    [SupplyParameterFromQuery(Name = "at")]
    public string? At { get; set; }

    /// <summary>IANA zone of nights and days; the phone's if left out.</summary>
    [SupplyParameterFromQuery(Name = "zone")]
    public string? ZoneName { get; set; }

    // A bad instant or zone in the address asks for nothing: now and here are told.
    private Workbench.Outlook Asked =>
        At is null && ZoneName is null
            ? Desk.OutlookAt(Clock.GetCurrentInstant())
            : Workbench.Outlook.Of(
                Desk.Account,
                UtcText.TryParse(Encoding.UTF8.GetBytes(At ?? ""), out var asked)
                    ? asked
                    : Clock.GetCurrentInstant(),
                DateTimeZoneProviders.Tzdb.GetZoneOrNull(ZoneName ?? "") ?? Clock.Zone
            );

    private ProfileWords Numbers => new(Words, Formats);

    private protected override void Opened() => _ = BeginAsync();

    private async Task BeginAsync()
    {
        _hasOthers = (await Shelf.ListAsync()).Count > 0;
        await HearAsync();
    }

    private protected override void Undone() => _ = HearAsync();

    private protected override void Left() => _stop.Cancel();

    private async Task HearAsync()
    {
        await _stop.CancelAsync();
        _stop = new();
        var stop = _stop.Token;
        using var working = Work.Begin();
        try
        {
            var profile = Profiles.Of(Of);
            (_code, _species) = (profile.Code, profile.ScientificName);
            _moves.Clear();
            _outlook = Asked;
            IReadOnlyList<OthersAccount> others = _withOthers
                ? OthersOfShelf.Of(await Shelf.RunsAsync(stop), _outlook.House)
                : [];
            _heard = await Slicer.Last(RunsPooling.InPieces(_outlook, _code, others), stop);
            await PoolAsync(stop);
            foreach (var number in _numbers!.Where(number => _open.Contains(number.Quantity.Code)))
            {
                await MoveAsync(number, stop);
            }
        }
        catch (OperationCanceledException)
        {
            // The page went on.
        }
        catch (Exception)
        {
            // Nobody waits for this work: the page says that it did not come.
            _failed = true;
            StateHasChanged();
            throw;
        }
    }

    private Task Others(bool wanted)
    {
        _withOthers = wanted;
        return HearAsync();
    }

    private async Task PoolAsync(CancellationToken stop)
    {
        var pooled = new List<PooledNumber>();
        var wishes = new PoolingWishes { Without = _without };
        await foreach (var number in Slicer.Slice(RunsPooling.Pool(_heard!, wishes), stop))
        {
            pooled.Add(number);
        }

        _numbers = pooled;
        StateHasChanged();
    }

    private async Task Turn(PooledNumber number)
    {
        if (!_open.Remove(number.Quantity.Code))
        {
            _open.Add(number.Quantity.Code);
            using var working = Work.Begin();
            await MoveAsync(number, _stop.Token);
        }
    }

    private async Task MoveAsync(PooledNumber number, CancellationToken stop)
    {
        if (_outlook is { } outlook && !_moves.ContainsKey(number.Quantity.Code))
        {
            StateHasChanged();
            _moves[number.Quantity.Code] = (await Slicer.Last(NumberMoves.InPieces(outlook, number), stop))!;
            StateHasChanged();
        }
    }

    private async Task Leave(string key)
    {
        if (!_without.Remove(key))
        {
            _without.Add(key);
        }

        using var working = Work.Begin();
        await PoolAsync(_stop.Token);
    }

    private async Task Take(PooledNumber number)
    {
        var reason = Words[
            "learned.reason",
            string.Join(
                ", ",
                number.Runs.Where(run => run.LeftOut is LeftOut.No).Select(run => Whose(run.Source))
            )
        ];
        _said = Words["learned.taken", Numbers.Meaning(number.Quantity)];
        var profile = Profiles.Of(_code);
        await WriteAsync([
            .. number.Choice.Select(part =>
                Desk.Keeper.Write(
                    new ProfileValueChosen(
                        profile.ScientificName,
                        part.Code,
                        profile.Find(part.Code)!.Unit.Code,
                        part.Value,
                        part.Low,
                        part.High,
                        reason
                    )
                )
            ),
        ]);
        await HearAsync();
    }

    private async Task TakeBack(PooledNumber number)
    {
        var keeper = Desk.Keeper;
        var codes = number
            .Choice.Select(part => part.Code)
            .Append(number.Quantity.Code)
            .ToHashSet(StringComparer.Ordinal);
        var chosen = Desk
            .Account.About(Subject.House)
            .Where(told =>
                told.Fact is ProfileValueChosen fact
                && codes.Contains(fact.Quantity)
                && SpeciesProfiles.Find(fact.Species)?.Code == _code
            )
            .ToList();
        _said = Words["species.undone", Numbers.Meaning(number.Quantity)];
        await Desk.WriteAsync([.. chosen.Select(told => keeper.TakeBack(told.Told))]);
        await HearAsync();
    }

    private List<NumberBar> Bars(PooledNumber number) =>
        [
            new(Words["learned.bar.published"], number.Published, NumberBarKind.Published),
            .. number.Runs.Select(run => new NumberBar(
                run.Source.Name,
                run.Alone,
                run.LeftOut is LeftOut.No ? NumberBarKind.Run : NumberBarKind.LeftOut
            )),
            new(Words["learned.bar.next"], number.Next, NumberBarKind.Next),
        ];

    private string Spoken(PooledNumber number) =>
        string.Join(". ", Bars(number).Select(bar => $"{bar.Name}: {Told(bar.Points)}"));

    private string Told(Interval points) =>
        $"{Formats.ThreeFigures(points.Middle)} ({Formats.ThreeFigures(points.Low)}–{Formats.ThreeFigures(points.High)})";

    // Whole numbers for whoever compares; people read the rounded ones.
    private static string Points(Interval points) =>
        string.Create(CultureInfo.InvariantCulture, $"{points.Low:R} {points.Middle:R} {points.High:R}");

    private string Whose(PooledSource source) =>
        source.From is { } from ? Words["learned.of", source.Name, from] : source.Name;

    private string Moved(NumberMove move)
    {
        var brood = Naming.Of(Desk.House, move.Brood);
        return move is { AtLow: { } low, AtHigh: { } high }
            ? Words[
                "learned.moves." + move.Answer,
                brood,
                Formats.Day(Zone.Here(low).Date),
                Formats.Day(Zone.Here(high).Date)
            ]
            : Words[
                "learned.moves." + move.Answer,
                brood,
                Formats.Number(Math.Round(move.LarvaeAtLow ?? 0), 0),
                Formats.Number(Math.Round(move.LarvaeAtHigh ?? 0), 0)
            ];
    }
}
