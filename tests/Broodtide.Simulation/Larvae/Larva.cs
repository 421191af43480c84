namespace Broodtide.Simulation.Larvae;

/// <summary>One larva's whole life, in days from the first crossing.</summary>
/// <param name="Cohort">Its crossing, from 1.</param>
/// <param name="Crossed">When it came into salt water.</param>
/// <param name="StageEnds">When it leaves, or would leave, each zoeal stage; the last is settlement.</param>
/// <param name="Died">When it dies, by itself; infinity if beyond the years looked at.</param>
public sealed record Larva(int Cohort, double Crossed, IReadOnlyList<double> StageEnds, double Died)
{
    /// <summary>When the keeper took it out; infinity if never.</summary>
    public double Removed { get; private set; } = double.PositiveInfinity;

    private double Gone => Math.Min(Died, Removed);

    /// <summary>When it settles in the vessel, if it does.</summary>
    public double? Settled => StageEnds[^1] < Gone ? StageEnds[^1] : null;

    public bool LivesAt(double day) => Crossed <= day && day < Gone;

    public bool DiedBetween(double after, double until) => Died < Removed && Died > after && Died <= until;

    /// <summary>0 for the first zoea to 8 for the ninth, 9 for a post-larva.</summary>
    public int StageAt(double day)
    {
        var stage = 0;
        while (stage < StageEnds.Count && StageEnds[stage] <= day)
        {
            stage++;
        }

        return stage;
    }

    public void TakeOut(double day) => Removed = day;
}
