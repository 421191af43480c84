using Broodtide.Cli.Door;
using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;

namespace Broodtide.Cli.Words;

/// <summary>A fact in one line of English, with the names of the house.</summary>
internal sealed partial class FactWords(Saying saying, House house)
{
    private readonly Naming _naming = new(house);

    public string Of(Fact fact) =>
        fact switch
        {
            UnknownFact unknown =>
                $"{unknown.Kind}, version {unknown.Version}: needs a newer version of Broodtide",
            UnreadableFact unreadable => $"{unreadable.Kind}: cannot be read",
            ErasedFact erased => $"{erased.Kind}: erased",
            _ => Join(
                Adults(fact)
                    ?? Larvae(fact)
                    ?? Water(fact)
                    ?? Gear(fact)
                    ?? Keeping(fact)
                    ?? [fact.GetType().Name]
            ),
        };

    private string?[]? Adults(Fact fact) =>
        fact switch
        {
            AnimalAcquired a =>
            [
                $"{a.Name} came",
                a.Sex is { } sex ? EnumWords.Plain(sex) : null,
                a.Species,
                In(a.Vessel),
                a.Source is { } source ? $"from {source}" : null,
            ],
            AnimalMoulted a => [$"{Name(a.Animal)} moulted"],
            AnimalMoved a => [$"{Name(a.Animal)} moved to {Name(a.To)}"],
            AnimalDied a => [$"{Name(a.Animal)} died", a.Cause],
            AnimalSeenEmpty a => [$"{Name(a.Animal)} seen empty"],
            AnimalSeenBerried a =>
            [
                $"{Name(a.Animal)} seen berried",
                a.Name,
                a.AgeUnknown ? "age unknown" : null,
            ],
            EggsObserved e =>
            [
                $"eggs of {Name(e.Brood)} looked at",
                Looked(e.Carried, "still carried", "no longer carried"),
                Looked(e.Eyed, "eyed", "not eyed"),
                e.Colour is { } colour ? EnumWords.Plain(colour) : null,
                Looked(e.Saddle, "a new saddle", "no saddle"),
            ],
            EggsDropped e =>
            [
                $"{(e.All ? "all eggs" : "some eggs")} of {Name(e.Brood)} dropped",
                e.Number is { } number ? $"{number} counted" : null,
                In(e.Vessel),
            ],
            AnimalIsolated a => [$"{Name(a.Animal)} put alone in {Name(a.To)}"],
            AnimalReturned a => [$"{Name(a.Animal)} back in {Name(a.To)}"],
            _ => null,
        };

    private string?[]? Larvae(Fact fact) =>
        fact switch
        {
            HatchingSeen h => [$"{Name(h.Brood)} hatching", In(h.Vessel), h.Over ? "over" : null],
            CollectionMade c => [$"{Larvae(c.Number)} of {Name(c.Brood)} collected", How(c.Method)],
            CrossingMade c =>
            [
                $"{Larvae(c.Number)} of {Name(c.Brood)} crossed into {Name(c.To)}",
                How(c.Method),
                c.BrackishMinutes is { } minutes ? $"{Typed(minutes)} brackish" : null,
                c.Entered is { } entered ? $"{Typed(entered)} went in" : null,
            ],
            CountMade c =>
            [
                $"{string.Join(" + ", c.Samples.Select(s => s.Seen))} larvae seen in {Name(c.Vessel)}",
                How(c.Method),
                c.Samples is [{ Volume: { } volume }, ..] ? $"samples of {Typed(volume)}" : null,
                c.Again ? "again" : null,
                .. Pictures(c.Pictures),
            ],
            DeadRemoved d => [$"{d.Number} dead taken out of {Name(d.Vessel)}"],
            StageSampleTaken s =>
            [
                $"staged in {Name(s.Vessel)}: {string.Join(", ", s.Stages.Select(t => $"{t.Number} {t.Stage}"))}",
            ],
            LarvaeMeasured m =>
            [
                $"larvae of {Name(m.Vessel)} measured",
                m.Micrometres is { Count: > 0 } um ? $"{string.Join(" + ", um)} um long" : null,
                m.BeatsPerMinute is { Count: > 0 } beats
                    ? $"{string.Join(" + ", beats)} beats a minute"
                    : null,
                m.SwimmingPercent is { Count: > 0 } swam ? $"{string.Join(" + ", swam)} % moved" : null,
                m.Scale is { } scale ? $"scale by {EnumWords.Plain(scale)}" : null,
            ],
            CohortsMoved m => [$"{Larvae(m.Number)} moved from {Name(m.From)} to {Name(m.To)}"],
            CohortsMerged m =>
            [
                $"in {Name(m.Vessel)}, {string.Join(" and ", m.Cohorts.Select(Name))} are told as {Name(m.Into)}",
            ],
            CohortSplit s =>
            [
                $"{Larvae(s.Number)} of {Name(s.Cohort)} went from {Name(s.From)} to {Name(s.To)}",
            ],
            SettlementSeen s =>
            [
                $"settlement seen in {Name(s.Vessel)}",
                s.Number is { } n ? $"{n} seen" : null,
            ],
            JuvenilesReturned j =>
            [
                $"{(j.Number is { } n ? $"{n} juveniles" : "juveniles")} returned from {Name(j.From)} to {Name(j.To)}",
                j.Minutes is { } minutes ? $"over {Typed(minutes)}" : null,
            ],
            JuvenilesCounted j => [$"{j.Number} juveniles counted in {Name(j.Vessel)}", How(j.Method)],
            JuvenilesGivenAway j =>
            [
                $"{j.Number} juveniles of {Name(j.Vessel)} given away",
                j.To is { } to ? $"to {to}" : null,
            ],
            SurvivalHeard s =>
            [
                $"of the juveniles of {Name(s.Vessel)} given away with card {s.Card}, {s.Alive} live",
                s.Received is { } received ? $"of {received} that came" : null,
                s.Note,
            ],
            _ => null,
        };

    private string?[]? Water(Fact fact) =>
        fact switch
        {
            ReadingTaken r =>
            [
                $"{Typed(r.Value)} read{(r.Vessel is { } vessel ? $" in {Name(vessel)}" : "")}",
                r.Instrument is { } with ? $"with {Name(with)}" : null,
                r.SampleTemperature is { } sample ? $"sample at {Typed(sample)}" : null,
                r.Again ? "again" : null,
            ],
            VesselSetUp v =>
            [
                $"{v.Name} set up as {EnumWords.Plain(v.Role)}",
                v.Capacity is { } capacity ? $"holds {Typed(capacity)}" : null,
                v.Species,
            ],
            VesselFilled v =>
            [
                $"{Name(v.Vessel)} filled with {Typed(v.Volume)}",
                v.From is { } from ? $"from {Name(from)}" : null,
                v.Salinity is { } salinity ? Typed(salinity)
                : v.From is null ? "fresh"
                : null,
                v.Temperature is { } temperature ? Typed(temperature) : null,
            ],
            VesselEmptied v => [$"{Name(v.Vessel)} emptied"],
            VesselDisinfected v =>
            [
                $"{Name(v.Vessel)} disinfected with {v.Agent}",
                v.Dose is { } dose ? $"dose {Typed(dose)}" : null,
                v.Residual is { } residual ? $"left {Typed(residual)}" : null,
            ],
            WaterMoved w => Moved(w),
            VesselSiphoned v =>
            [
                $"{Name(v.Vessel)} siphoned",
                v.Volume is { } volume ? Typed(volume) : null,
                v.LarvaeReturned is { } back ? $"{back} larvae put back" : null,
            ],
            VesselFed v =>
            [
                $"{Name(v.Vessel)} fed {EnumWords.Plain(v.Food)}",
                v.Volume is { } volume ? Typed(volume) : null,
                v.Mass is { } mass ? Typed(mass) : null,
                v.From is { } from ? $"from {Name(from)}" : null,
                v.Feed,
            ],
            _ => Cultures(fact),
        };

    private string?[] Moved(WaterMoved w)
    {
        var what =
            w.Mix is { } mix ? $"{Typed(mix)} of salt mix"
            : w.Volume is { } volume ? Typed(volume)
            : "water";
        return
        [
            (w.From, w.To) switch
            {
                ({ } from, { } to) => $"{what} poured from {Name(from)} to {Name(to)}",
                ({ } from, null) => w.Evaporated
                    ? $"{what} evaporated from {Name(from)}"
                    : $"{what} drawn off {Name(from)}",
                (null, { } to) when w.Mix is not null => $"{what} dissolved in {Name(to)}",
                (null, { } to) => $"{what} added to {Name(to)}",
                _ => $"{what} moved",
            },
            w.Salinity is { } salinity ? Typed(salinity) : null,
            w.ToLine ? "to the working line" : null,
        ];
    }

    private string Name(AnimalId id) => _naming.NameOf(Subject.Of(id));

    private string Name(BroodId id) => _naming.NameOf(Subject.Of(id));

    private string Name(VesselId id) => _naming.NameOf(Subject.Of(id));

    private string Name(RunId id) => _naming.NameOf(Subject.Of(id));

    private string Name(CohortId id) => _naming.NameOf(Subject.Of(id));

    private string Name(InstrumentId id) => _naming.NameOf(Subject.Of(id));

    private string? In(VesselId? vessel) => vessel is { } id ? $"in {Name(id)}" : null;

    private static string Typed(TypedNumber number) => UnitNames.Of(number);

    private static string Larvae(int? number) => number is { } count ? $"{count} larvae" : "larvae";

    private static string? How(CountMethod? method) =>
        method is { } how ? $"by {EnumWords.Plain(how)}" : null;

    private static string?[] Pictures(PicturesSeen? pictures) =>
        pictures is null
            ? []
            :
            [
                pictures.Pictures.Count == 1 ? "in one photo" : $"in a burst of {pictures.Pictures.Count}",
                $"{pictures.Counts[0].Marked} by the program ({Saying.Number(Math.Floor(pictures.Counts[0].Low))} to {Saying.Number(Math.Ceiling(pictures.Counts[0].High))})",
                pictures.OfPerson() is { } person ? $"{person} by {OfLook(pictures.Person)}" : null,
                pictures.Known is { } known ? $"{known} were known to be there" : null,
                pictures.Setup,
            ];

    private static string OfLook(PersonLooked person) =>
        person == PersonLooked.Before ? "a person before the marks were shown" : "a person with the marks";

    private static string? Looked(bool? seen, string yes, string no) =>
        seen is { } was
            ? was
                ? yes
                : no
            : null;

    private static string OnOff(bool on) => on ? "on" : "off";

    private static string Join(string?[] parts) =>
        string.Join(", ", parts.Where(p => !string.IsNullOrEmpty(p)));
}
