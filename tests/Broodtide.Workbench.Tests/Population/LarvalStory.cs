using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Population;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Population;

/// <summary>
/// An invented brood at sea, told in days since its first larvae crossed: jar A and jar B of six litres, 25 degC,
/// salinity 30.
/// </summary>
internal sealed class LarvalStory
{
    public static readonly Instant Crossed = At(5, 25, 8);

    private readonly List<Entry> _entries = [];
    private int _ids = 5000;

    public LarvalStory()
    {
        Tell(-30, new VesselSetUp(JarA, "Jar A", VesselRole.LarvalVessel, Litres(8)));
        Tell(-30, new VesselSetUp(JarB, "Jar B", VesselRole.LarvalVessel, Litres(8)));
        Tell(-30, new AnimalSeenBerried(Female, Brood1, "Brood 1"));
        Tell(-29.9, new RunStarted(Run1, Brood1, "Brood 1"));
        Tell(-1, Filled(JarA, 21));
        Tell(-1, Filled(JarB, 22));
    }

    public static VesselId JarA => Jar;

    public static VesselId JarB => new(Fixed(20));

    public static CohortId First => Cohort1;

    public static CohortId Second => new(Fixed(23));

    public IReadOnlyList<Entry> Entries => _entries;

    public static Instant Day(double day) => Crossed + Duration.FromSeconds(Math.Round(day * 86400));

    public static TypedNumber Litres(double litres) => TypedNumber.Of(litres, "L");

    public static VesselFilled Filled(VesselId vessel, int fill) =>
        new(
            vessel,
            new FillId(Fixed(fill)),
            Litres(6),
            TypedNumber.Of(30, UnitCode.PracticalSalinity),
            TypedNumber.Of(25, "Cel")
        );

    public static CrossingMade Into(CohortId cohort, VesselId to, int? number, CountMethod? method = null) =>
        new(cohort, Brood1, to, Number: number, Method: method ?? CountMethod.Full);

    public static CountMade Full(int seen, VesselId? vessel = null) =>
        new(vessel ?? JarA, CountMethod.Full, [new Aliquot(seen)]);

    public static CountMade Glance(int seen, VesselId? vessel = null) =>
        new(vessel ?? JarA, CountMethod.Glance, [new Aliquot(seen)]);

    public static CountMade Aliquots(double litres, params int[] seen) =>
        new(JarA, CountMethod.Aliquot, [.. seen.Select(each => new Aliquot(each, Litres(litres)))]);

    public static StageSampleTaken Staged(params (string Stage, int Number)[] tallies) =>
        new(JarA, [.. tallies.Select(tally => new StageTally(tally.Stage, tally.Number))]);

    /// <summary>The usual beginning: 200 larvae, all counted, into jar A.</summary>
    public static LarvalStory Of200() => new LarvalStory().Tell(0, Into(First, JarA, 200));

    public LarvalStory Tell(double day, Fact fact, string keeper = "keeper")
    {
        var draft = DraftOf(day, fact, keeper);
        _entries.Add(
            draft.Seal(
                new ReplicaId(Fixed(99)),
                _entries.Count + 1,
                _entries.Count == 0 ? null : _entries[^1].Digest,
                new byte[EntryBytes.SaltLength]
            )
        );
        return this;
    }

    /// <summary>Tells what a journal takes; what it refuses is left out.</summary>
    public LarvalStory TellIfTaken(double day, Fact fact) =>
        DraftOf(day, fact, "keeper").Impossible() is null ? Tell(day, fact) : this;

    private Draft DraftOf(double day, Fact fact, string keeper)
    {
        var when = Day(day);
        return new(new EntryId(Fixed(_ids++)), new Author(keeper), when, Zone.Id, Happened.At(when), fact);
    }

    public Outlook Outlook(double day) => Workbench.Outlook.Of(Account.Of(_entries), Day(day), Zone);

    /// <summary>The one population there is.</summary>
    public LarvalPopulation Population(double day) => Outlook(day).Populations.Single();

    public PopulationEstimate Estimate(double day, params double[] alsoAt) =>
        Population(day).Estimate([.. alsoAt.Select(Day)]);
}
