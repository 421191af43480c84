namespace Broodtide.Simulation.Larvae;

/// <summary>A vessel and the notebook beside it.</summary>
internal sealed class Bench
{
    private readonly Dice _dice;
    private readonly Vessel _vessel;
    private readonly IReadOnlyList<Crossing> _crossings;

    public Bench(Dice dice, World world, Warmth warmth, IReadOnlyList<Crossing> crossings, int roundedTo = 1)
    {
        _dice = dice;
        _crossings = crossings;
        _vessel = Vessel.Lived(dice, world, warmth, crossings);
        Notebook = new(dice, world, _vessel, Eye.Drawn(dice), roundedTo);
    }

    public Notebook Notebook { get; }

    /// <summary>The keeper's numbers: truth divided by a factor.</summary>
    public void WriteCrossings(Func<Crossing, double> factor)
    {
        for (var i = 0; i < _crossings.Count; i++)
        {
            Notebook.Crossed(i + 1, _crossings[i].Day, _crossings[i].Larvae / factor(_crossings[i]));
        }
    }

    /// <summary>Carries out the looks; the living are told on the day of the last entry.</summary>
    public Run Watch(double until, Action<Plan> looks)
    {
        Notebook.Temperatures(until, _dice.Whole(1, 2));
        var plan = new Plan(_dice);
        looks(plan);
        plan.CarryOut();
        return new(Notebook.Rows, _vessel, [Notebook.Rows[^1].Day]);
    }
}
