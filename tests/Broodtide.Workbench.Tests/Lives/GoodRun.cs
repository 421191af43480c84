using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Due;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Planning;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Lives;

/// <summary>One evening of the walk.</summary>
/// <param name="At">When the list was read.</param>
/// <param name="Items">Items in the list.</param>
/// <param name="Firm">Items whose time has come and that may not slip.</param>
/// <param name="Next">How many are marked as next.</param>
internal sealed record Evening(Instant At, int Items, int Firm, int Next);

/// <summary>The walk: five animals from a shop, two of them females, one of which lays on the twentieth night.</summary>
internal sealed class GoodRun
{
    // The truth, which the keeper does not know.
    private const int DaysToLaying = 33;
    private const double DaysCarried = 24.6;
    private const double EyedFrom = 0.5;
    private const double PaleDays = 2.2;
    private static readonly Instant Bought = At(4, 1, 18);

    private readonly KeptJournal _kept = new();
    private readonly Dictionary<string, Instant> _firstShown = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Instant> _firstDone = new(StringComparer.Ordinal);
    private readonly List<(string Code, string Key)> _shown = [];
    private readonly AnimalId[] _animals = [.. Enumerable.Range(50, 5).Select(n => new AnimalId(Fixed(n)))];
    private int _collections;

    public List<Evening> Evenings { get; } = [];

    public List<(Instant Evening, double Chance)> Tonights { get; } = [];

    public List<HatchWindow> Windows { get; } = [];

    public HashSet<string> Reasons { get; } = new(StringComparer.Ordinal);

    public Instant Moulted { get; } = Bought + Duration.FromDays(DaysToLaying) + Duration.FromHours(13);

    public Instant Laid { get; } = Bought + Duration.FromDays(DaysToLaying) + Duration.FromHours(10);

    public Instant Hatched => Laid + Duration.FromDays(DaysCarried);

    public Account Account => _kept.Account();

    public Outlook After { get; private set; } = default!;

    public Brood Brood => After.House.Brood(Brood1);

    public Animal Mother => After.House.Animal(_animals[0]);

    /// <summary>When the list first said that its time had come.</summary>
    public Instant? FirstShown(string code) => _firstShown.TryGetValue(code, out var at) ? at : null;

    public Instant? FirstDone(string code) => _firstDone.TryGetValue(code, out var at) ? at : null;

    public IReadOnlyList<(string Code, string Key)> Shown(string code) =>
        [.. _shown.Where(shown => string.Equals(shown.Code, code, StringComparison.Ordinal))];

    public static GoodRun Walk()
    {
        var run = new GoodRun();
        run.Buy();
        var evening = Bought + Duration.FromHours(3);
        for (var day = 0; day < 75 && !run.IsOver(evening); day++)
        {
            run.Live(evening);
            evening += Duration.FromDays(1);
        }

        run.After = Outlook.Of(run._kept.Account(), evening, Zone);
        return run;
    }

    private bool IsOver(Instant now) =>
        FirstDone(ActionCodes.ReturnFemale) is { } back && now > back + Duration.FromHours(20);

    private void Buy()
    {
        _kept
            .Write(Bought, new VesselSetUp(Tank, "Tank", VesselRole.BroodTank, TypedNumber.Of(54, "L")))
            .Write(Bought, new VesselFilled(Tank, new(Fixed(70)), TypedNumber.Of(50, "L")))
            .Write(Bought, new VesselSetUp(Box, "Box", VesselRole.HatchingBox, TypedNumber.Of(2, "L")))
            .Write(Bought, new VesselSetUp(Jar, "Jar", VesselRole.LarvalVessel, TypedNumber.Of(6, "L")));
        foreach (var animal in _animals)
        {
            _kept.Write(
                Bought,
                new AnimalAcquired(
                    animal,
                    $"S{Array.IndexOf(_animals, animal) + 1}",
                    "Caridina multidentata",
                    null,
                    Tank,
                    "a shop"
                )
            );
        }
    }

    // One evening: the thermometer, the skin if one lies there, the list, and on likely nights the torch.
    private void Live(Instant evening)
    {
        _kept.Write(evening - Duration.FromHours(1), new ReadingTaken(TypedNumber.Of(25.5, "Cel"), Tank));
        if (Moulted <= evening && Moulted > evening - Duration.FromDays(1))
        {
            _kept.Write(Happened.At(Moulted), new AnimalMoulted(_animals[0]), evening);
        }

        var outlook = Outlook.Of(_kept.Account(), evening, Zone);
        var due = outlook.Due;
        var ready = due.Items.Where(item => item.Action.From <= evening).ToList();
        Evenings.Add(
            new(
                evening,
                due.Items.Count,
                ready.Count(item => item.Part is DuePart.Now && item.Action.State is ActionState.Open),
                due.Items.Count(item => item.IsNext)
            )
        );
        if (outlook.ForecastOf(Brood1) is { SeenHatching: null } forecast)
        {
            Windows.Add(forecast.Window90);
            Tonights.Add((evening, outlook.Tonight.Rows.Single(row => row.Brood == Brood1).Chance.Value));
        }

        foreach (var item in ready)
        {
            _shown.Add((item.Action.Code, item.Action.Key));
            _firstShown.TryAdd(item.Action.Code, evening);
            Reasons.Add(item.Action.Reason.Code);
            if (item.Action.State is ActionState.Open)
            {
                Do(item.Action, evening);
            }
        }

        Torch(evening + Duration.FromHours(4.5));
    }

    private void Do(PlannedAction action, Instant now)
    {
        switch (action.Code)
        {
            case ActionCodes.KeepNewApart when now < action.By:
            case ActionCodes.LookForLarvae:
            case ActionCodes.SomeoneAtHome:
                return;
            case ActionCodes.SexAdults when now < Bought + Duration.FromDays(5):
                return;
            case ActionCodes.SexAdults:
                for (var i = 0; i < _animals.Length; i++)
                {
                    _kept.Write(
                        now,
                        new AnimalAcquired(_animals[i], $"S{i + 1}", null, i < 2 ? Sex.Female : Sex.Male)
                    );
                }

                break;
            case ActionCodes.LookForEggs:
                var female = new AnimalId(action.About.Id);
                if (female == _animals[0] && now >= Laid && FirstDone("berried") is null)
                {
                    _kept
                        .Write(now, new AnimalSeenBerried(female, Brood1, "Brood 1"))
                        .Write(now, new RunStarted(Run1, Brood1, "Brood 1", "Caridina multidentata"));
                    _firstDone["berried"] = now;
                }
                else
                {
                    _kept.Write(now, new AnimalSeenEmpty(female));
                }

                break;
            case ActionCodes.LookAtEggs:
                var share = (now - Laid).TotalDays / DaysCarried;
                var pale = (Hatched - now).TotalDays < PaleDays;
                _kept.Write(
                    now,
                    new EggsObserved(Brood1, true, share >= EyedFrom, pale ? EggColour.Pale : EggColour.Dark)
                );
                break;
            case ActionCodes.Isolate:
                _kept.Write(now, new AnimalIsolated(_animals[0], Box, Brood1));
                break;
            case ActionCodes.GatherLarvae:
                Gather(now, 40);
                break;
            case ActionCodes.MixSeaWater:
                _kept.Write(
                    now,
                    new VesselFilled(
                        Jar,
                        Fill1,
                        TypedNumber.Of(5, "L"),
                        TypedNumber.Of(30, UnitCode.PracticalSalinity)
                    )
                );
                break;
            case ActionCodes.ReturnFemale:
                _kept.Write(now, new AnimalReturned(_animals[0], Tank));
                break;
            default:
                _kept.Write(now, new ActionDone(action.Key, action.About.Id));
                break;
        }

        _firstDone.TryAdd(action.Code, now);
    }

    // Only where the list asks for it.
    private void Torch(Instant night)
    {
        var due = Outlook.Of(_kept.Account(), night, Zone).Due;
        if (
            due.Items.FirstOrDefault(item => item.Action.Code is ActionCodes.LookForLarvae) is not { } look
            || look.Action.From > night
        )
        {
            return;
        }

        Reasons.Add(look.Action.Reason.Code);
        if (night < Hatched || _collections > 1)
        {
            _kept.Write(night, new ActionDone(look.Action.Key, look.Action.About.Id));
            return;
        }

        // The first night brings most, a trickle the rest.
        if (_collections == 0)
        {
            _kept.Write(night, new HatchingSeen(Brood1, Box));
            Gather(night + Duration.FromMinutes(30), 200);
            _firstDone.TryAdd(ActionCodes.GatherLarvae, night);
            _firstShown.TryAdd(ActionCodes.GatherLarvae, night);
        }
        else
        {
            Gather(night, 40);
            _kept.Write(night + Duration.FromMinutes(10), new AnimalSeenEmpty(_animals[0]));
        }
    }

    private void Gather(Instant now, int number) =>
        _kept.Write(
            now,
            new CollectionMade(new(Fixed(80 + _collections++)), Brood1, Box, null, number, CountMethod.Beam)
        );
}
