namespace Broodtide.Domain.Journal;

/// <summary>What kind of thing an entry speaks of.</summary>
public enum SubjectKind
{
    /// <summary>The whole house: power, absence, due actions, notes.</summary>
    House,

    /// <summary>An adult.</summary>
    Animal,

    /// <summary>A clutch of eggs.</summary>
    Brood,

    /// <summary>A brood carried through.</summary>
    Run,

    /// <summary>A thing that holds water.</summary>
    Vessel,

    /// <summary>Larvae of one crossing.</summary>
    Cohort,

    /// <summary>A measuring device.</summary>
    Instrument,

    /// <summary>Another entry.</summary>
    Entry,
}

/// <summary>One thing that an entry speaks of.</summary>
/// <param name="Kind">What kind of thing.</param>
/// <param name="Id">Its UUID; all zero for the house.</param>
public readonly record struct Subject(SubjectKind Kind, Guid Id)
{
    /// <summary>The house itself.</summary>
    public static Subject House => default;

    /// <summary>An animal.</summary>
    public static Subject Of(AnimalId id) => new(SubjectKind.Animal, id.Value);

    /// <summary>A brood.</summary>
    public static Subject Of(BroodId id) => new(SubjectKind.Brood, id.Value);

    /// <summary>A run.</summary>
    public static Subject Of(RunId id) => new(SubjectKind.Run, id.Value);

    /// <summary>A vessel.</summary>
    public static Subject Of(VesselId id) => new(SubjectKind.Vessel, id.Value);

    /// <summary>A cohort.</summary>
    public static Subject Of(CohortId id) => new(SubjectKind.Cohort, id.Value);

    /// <summary>An instrument.</summary>
    public static Subject Of(InstrumentId id) => new(SubjectKind.Instrument, id.Value);

    /// <summary>An entry.</summary>
    public static Subject Of(EntryId id) => new(SubjectKind.Entry, id.Value);
}
