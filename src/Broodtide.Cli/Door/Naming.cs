using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Cli.Door;

/// <summary>
/// Finds things by the name they have in the house, in any case of letters; or by the end of their identity. Entries
/// are called by the last figures of theirs.
/// </summary>
internal sealed class Naming(House house)
{
    private const int ShortLength = 6;
    private const int LeastLength = 4;

    /// <summary>An identity as it is shown: its last figures, which are chance and no clock.</summary>
    public static string Short(Guid id) => id.ToString("N")[^ShortLength..];

    public static string Short(EntryId id) => Short(id.Value);

    public Parsed<VesselId> Vessel(string name) =>
        Find("vessel", name, house.Vessels.Select(v => (v.Id, v.Id.Value, v.Name)));

    public Parsed<AnimalId> Animal(string name) =>
        Find("animal", name, house.Animals.Select(a => (a.Id, a.Id.Value, a.Name)));

    public Parsed<BroodId> Brood(string name) =>
        Find("brood", name, house.Broods.Select(b => (b.Id, b.Id.Value, b.Name ?? house.RunOf(b.Id)?.Name)));

    public Parsed<RunId> Run(string name) =>
        Find("run", name, house.Runs.Select(r => (r.Id, r.Id.Value, r.Name)));

    public Parsed<InstrumentId> Instrument(string name) =>
        Find("instrument", name, house.Instruments.Select(i => (i.Id, i.Id.Value, i.Description?.Name)));

    /// <summary>Cohorts have no names: the second crossing of "Brood 2" is "Brood 2#2".</summary>
    public Parsed<CohortId> Cohort(string name) =>
        Find("cohort", name, house.Cohorts.Select(c => (c.Id, c.Id.Value, NameOf(c.Id))));

    public string? NameOf(CohortId id)
    {
        var cohort = house.Cohort(id);
        if (cohort.Brood is not { } brood || BroodName(brood) is not { } name)
        {
            return null;
        }

        var number = house.Cohorts.Where(c => c.Brood == brood).TakeWhile(c => c.Id != id).Count() + 1;
        return $"{name}#{number}";
    }

    public string? BroodName(BroodId id) => house.Brood(id).Name ?? house.RunOf(id)?.Name;

    /// <summary>The name of anything, or the end of its identity.</summary>
    public string NameOf(Subject subject) =>
        (
            subject.Kind switch
            {
                SubjectKind.Vessel => house.Vessel(new(subject.Id)).Name,
                SubjectKind.Animal => house.Animal(new(subject.Id)).Name,
                SubjectKind.Brood => BroodName(new(subject.Id)),
                SubjectKind.Run => house.Run(new(subject.Id)).Name,
                SubjectKind.Instrument => house.Instrument(new(subject.Id)).Description?.Name,
                SubjectKind.Cohort => NameOf(new CohortId(subject.Id)),
                SubjectKind.House => "the house",
                _ => null,
            }
        ) ?? Short(subject.Id);

    /// <summary>The entry with these last figures, or "last" for the one written last.</summary>
    public Parsed<Entry> Entry(string text)
    {
        if (text is "last")
        {
            return
                house.Account.Entries.Aggregate(
                    (Entry?)null,
                    (last, entry) => last is null || OrderOfTelling.ByWriting(last, entry) < 0 ? entry : last
                )
                    is { } newest
                ? Parsed<Entry>.Of(newest)
                : Parsed<Entry>.No("entry-unknown", new Argument("typed", text));
        }

        var figures = text.Replace("-", "", StringComparison.Ordinal);
        var found = house
            .Account.Entries.Where(entry =>
                figures.Length >= LeastLength
                && entry.Id.Value.ToString("N").EndsWith(figures, StringComparison.OrdinalIgnoreCase)
            )
            .DistinctBy(entry => entry.Id)
            .Take(2)
            .ToList();
        return found.Count switch
        {
            1 => Parsed<Entry>.Of(house.Account.Find(found[0].Id)!),
            0 => Parsed<Entry>.No("entry-unknown", new Argument("typed", text)),
            _ => Parsed<Entry>.No("entry-not-one", new Argument("typed", text)),
        };
    }

    private static Parsed<T> Find<T>(
        string sort,
        string typed,
        IEnumerable<(T Id, Guid Value, string? Name)> things
    )
        where T : notnull
    {
        var known = things.ToList();
        var named = known
            .Where(thing => string.Equals(thing.Name, typed, StringComparison.OrdinalIgnoreCase))
            .ToList();
        if (named.Count == 0)
        {
            named =
            [
                .. known.Where(thing =>
                    typed.Length >= LeastLength
                    && thing.Value.ToString("N").EndsWith(typed, StringComparison.OrdinalIgnoreCase)
                ),
            ];
        }

        return named.Count switch
        {
            1 => Parsed<T>.Of(named[0].Id),
            0 => Parsed<T>.No(
                known.Count == 0 ? "name-unknown-none-there" : "name-unknown",
                new("sort", sort),
                new("typed", typed),
                new(
                    "known",
                    string.Join(", ", known.Select(thing => $"\"{thing.Name ?? Short(thing.Value)}\""))
                )
            ),
            _ => Parsed<T>.No(
                "name-not-one",
                new("sort", sort),
                new("typed", typed),
                new("known", string.Join(", ", named.Select(thing => Short(thing.Value))))
            ),
        };
    }
}
