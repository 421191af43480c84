using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Units;

namespace Broodtide.Domain;

/// <summary>
/// Everything in the house by name: who, where, which water. Views are worked out when first asked for and kept
/// until the account changes; go on with <see cref="Renewed"/> then.
/// </summary>
/// <param name="account">What is known.</param>
public sealed class House(Account account)
{
    private readonly ChangePlace _from = account.Changes.Place;
    private readonly Dictionary<AnimalId, Animal> _animals = [];
    private readonly Dictionary<BroodId, Brood> _broods = [];
    private readonly Dictionary<VesselId, Vessel> _vessels = [];
    private readonly Dictionary<CohortId, Cohort> _cohorts = [];
    private readonly Dictionary<VesselId, IReadOnlyList<Occurrence>> _movesOfAll = [];
    private readonly Dictionary<RunId, Run> _runs = [];
    private readonly Dictionary<InstrumentId, Instrument> _instruments = [];
    private readonly Dictionary<Subject, Dictionary<Type, List<Occurrence>>> _byKind = [];
    private Dictionary<BroodId, Run>? _runOf;

    /// <summary>What is known.</summary>
    public Account Account => account;

    /// <summary>Every animal, first mentioned first.</summary>
    public IEnumerable<Animal> Animals =>
        account.Subjects(SubjectKind.Animal).Select(id => Animal(new AnimalId(id)));

    /// <summary>Every brood, first mentioned first.</summary>
    public IEnumerable<Brood> Broods =>
        account.Subjects(SubjectKind.Brood).Select(id => Brood(new BroodId(id)));

    /// <summary>Every vessel, first mentioned first.</summary>
    public IEnumerable<Vessel> Vessels =>
        account.Subjects(SubjectKind.Vessel).Select(id => Vessel(new VesselId(id)));

    /// <summary>Every cohort, first mentioned first.</summary>
    public IEnumerable<Cohort> Cohorts =>
        account.Subjects(SubjectKind.Cohort).Select(id => Cohort(new CohortId(id)));

    /// <summary>Every run, first mentioned first.</summary>
    public IEnumerable<Run> Runs => account.Subjects(SubjectKind.Run).Select(id => Run(new RunId(id)));

    /// <summary>Every instrument, first mentioned first.</summary>
    public IEnumerable<Instrument> Instruments =>
        account.Subjects(SubjectKind.Instrument).Select(id => Instrument(new InstrumentId(id)));

    /// <summary>The view of an animal; empty if nothing is known of it.</summary>
    public Animal Animal(AnimalId id) => Kept(_animals, id, Domain.Animals.Animal.In);

    /// <summary>The view of a brood; empty if nothing is known of it.</summary>
    public Brood Brood(BroodId id) => Kept(_broods, id, Domain.Broods.Brood.In);

    /// <summary>The view of a vessel; empty if nothing is known of it.</summary>
    public Vessel Vessel(VesselId id) => Kept(_vessels, id, Domain.Vessels.Vessel.In);

    /// <summary>The view of a cohort; empty if nothing is known of it.</summary>
    public Cohort Cohort(CohortId id) => Kept(_cohorts, id, MakeCohort);

    /// <summary>The view of a run; empty if nothing is known of it.</summary>
    public Run Run(RunId id) => Kept(_runs, id, Domain.Keeping.Run.In);

    /// <summary>The view of an instrument; empty if nothing is known of it.</summary>
    public Instrument Instrument(InstrumentId id) => Kept(_instruments, id, Domain.Readings.Instrument.In);

    /// <summary>
    /// What happened to a subject of one kind of fact, in the order of telling. Worked out for all kinds at once and kept until something else
    /// happens to the subject: a jar of ten years has thousands of readings, and most who ask of it want a few other facts.
    /// </summary>
    /// <typeparam name="TFact">The kind.</typeparam>
    /// <param name="subject">The subject.</param>
    public IReadOnlyList<Occurrence> Told<TFact>(Subject subject)
        where TFact : Fact
    {
        if (!_byKind.TryGetValue(subject, out var kinds))
        {
            _byKind[subject] = kinds = [];
            foreach (var occurrence in account.About(subject))
            {
                var kind = occurrence.Fact.GetType();
                if (!kinds.TryGetValue(kind, out var told))
                {
                    kinds[kind] = told = [];
                }

                told.Add(occurrence);
            }
        }

        return kinds.GetValueOrDefault(typeof(TFact)) ?? [];
    }

    /// <summary>The run of a brood, the latest begun if there are several; none if it has none.</summary>
    public Run? RunOf(BroodId brood)
    {
        if (_runOf is null)
        {
            _runOf = [];
            foreach (var run in Runs)
            {
                if (run.Brood is { } of)
                {
                    _runOf[of] = run;
                }
            }
        }

        return _runOf.GetValueOrDefault(brood);
    }

    /// <summary>Vessels that the larvae of a brood lived in, in the order of crossing.</summary>
    public IEnumerable<Vessel> VesselsOf(BroodId brood) =>
        Cohorts
            .Where(cohort => cohort.Brood == brood)
            .SelectMany(cohort => cohort.Groups)
            .Select(group => group.Vessel)
            .Distinct()
            .Select(Vessel);

    /// <summary>Whether cohorts of more than one brood lived in a vessel: it is then left out of comparisons.</summary>
    public bool IsMixed(VesselId vessel) =>
        Cohorts
            .Where(cohort => cohort.Groups.Any(group => group.Vessel == vessel))
            .Select(cohort => cohort.Brood)
            .Distinct()
            .Skip(1)
            .Any();

    /// <summary>Everything that does not agree: in the journal itself and in the history of each subject.</summary>
    public IReadOnlyList<Remark> Conflicts() =>
        [
            .. account.Conflicts(),
            .. Animals.SelectMany(animal => animal.Conflicts),
            .. Broods.SelectMany(brood => brood.Conflicts),
            .. Vessels.SelectMany(vessel => vessel.Conflicts),
            .. Cohorts.SelectMany(cohort => cohort.Conflicts),
        ];

    /// <summary>
    /// The house as it is told now: itself while nothing changed, else a new one that keeps the views of everything the
    /// changes do not speak of. It is the same as one made anew.
    /// </summary>
    public House Renewed()
    {
        if (account.Changes.Place == _from)
        {
            return this;
        }

        var house = new House(account);
        if (account.Changes.Since(_from) is { } changed)
        {
            house.Keep(this, changed);
        }

        return house;
    }

    private void Keep(House before, IReadOnlyList<Occurrence> changed)
    {
        var touched = changed.SelectMany(occurrence => occurrence.Fact.Subjects()).ToHashSet();
        KeepBut(before._animals, _animals, id => touched.Contains(Subject.Of(id)));
        KeepBut(before._vessels, _vessels, id => touched.Contains(Subject.Of(id)));
        KeepBut(before._runs, _runs, id => touched.Contains(Subject.Of(id)));
        KeepBut(before._instruments, _instruments, id => touched.Contains(Subject.Of(id)));
        KeepBut(before._byKind, _byKind, touched.Contains);
        // A brood is told with the history of its mother too.
        if (!touched.Any(subject => subject.Kind is SubjectKind.Animal))
        {
            KeepBut(before._broods, _broods, id => touched.Contains(Subject.Of(id)));
        }

        // A move that names no cohort moves all that live in a vessel.
        if (!changed.Any(occurrence => occurrence.Fact is CohortsMoved { Cohorts: null }))
        {
            KeepBut(before._movesOfAll, _movesOfAll, _ => false);
            KeepBut(before._cohorts, _cohorts, id => touched.Contains(Subject.Of(id)));
        }
    }

    private static void KeepBut<TId, TView>(
        Dictionary<TId, TView> before,
        Dictionary<TId, TView> now,
        Func<TId, bool> isTouched
    )
        where TId : notnull
    {
        foreach (var (id, view) in before)
        {
            if (!isTouched(id))
            {
                now[id] = view;
            }
        }
    }

    private Cohort MakeCohort(Account known, CohortId id) =>
        Domain.Larvae.Cohort.In(
            known,
            id,
            vessel => Kept(_movesOfAll, vessel, Domain.Larvae.Cohort.MovesOfAll)
        );

    private TView Kept<TId, TView>(Dictionary<TId, TView> views, TId id, Func<Account, TId, TView> make)
        where TId : notnull
    {
        if (!views.TryGetValue(id, out var view))
        {
            views[id] = view = make(account, id);
        }

        return view;
    }
}
