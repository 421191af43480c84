namespace Broodtide.Simulation.Larvae;

/// <summary>What an invented keeper counts and writes down; to be asked in order of time.</summary>
public sealed class Notebook
{
    private readonly Dice _dice;
    private readonly World _world;
    private readonly Vessel _vessel;
    private readonly Eye _eye;
    private readonly int _roundedTo;
    private readonly List<Row> _rows = [];
    private double _lookedForDead;

    public Notebook(Dice dice, World world, Vessel vessel, Eye eye, int roundedTo)
    {
        (_dice, _world, _vessel, _eye, _roundedTo) = (dice, world, vessel, eye, roundedTo);
    }

    /// <summary>In order of time.</summary>
    public IReadOnlyList<Row> Rows => [.. _rows.OrderBy(row => row.Day)];

    public void Crossed(int cohort, double day, double number) =>
        _rows.Add(new(day, "crossing") { Cohort = cohort, X = Math.Max(1, Rounded(number)) });

    /// <summary>On whole days, read to a tenth with an error of sd 0.2.</summary>
    public void Temperatures(double until, int everyDays)
    {
        for (var day = 0; day <= until; day += everyDays)
        {
            var shown = Math.Round(_vessel.Warmth.At(day) + (0.2 * _dice.Normal()), 1);
            _rows.Add(new(day, "temperature") { X = shown });
        }
    }

    /// <summary>Several aliquots, each of the same share of the water and clumped by itself.</summary>
    public void Aliquots(double day, double share, int aliquots)
    {
        var alive = _vessel.AliveAt(day);
        var seen = 0;
        for (var i = 0; i < aliquots; i++)
        {
            seen += _dice.NegativeBinomial(share * alive, _world.Clumping);
        }

        _rows.Add(
            new(day, "aliquot")
            {
                X = Rounded(Math.Min(seen, alive)),
                Fraction = share * aliquots,
                N = aliquots,
            }
        );
    }

    /// <summary>The same, each aliquot written down by itself.</summary>
    public void EachAliquot(double day, double share, int aliquots)
    {
        for (var i = 0; i < aliquots; i++)
        {
            Aliquots(day, share, 1);
        }
    }

    /// <summary>All counted, with an error of 3 %.</summary>
    public void Full(double day) =>
        _rows.Add(
            new(day, "full")
            {
                X = Rounded(Math.Max(0, _vessel.AliveAt(day) * (1 + (0.03 * _dice.Normal())))),
            }
        );

    /// <summary>Those that come to the light and are seen; some evenings better than others.</summary>
    public void Beam(double day)
    {
        var evening = _dice.LogNormal(1, 0.2);
        var seen = _vessel
            .LivingAt(day)
            .Count(larva =>
                _dice.Chance(Math.Min(1, evening * _eye.Beam) * Eye.ComesToLight(larva.StageAt(day)))
            );
        _rows.Add(new(day, "beam") { X = Rounded(seen) });
    }

    /// <summary>Very scattered.</summary>
    public void Glance(double day)
    {
        var share = Math.Min(1, _eye.Glance * _dice.LogNormal(1, 0.5));
        _rows.Add(new(day, "glance") { X = Rounded(_dice.Binomial(_vessel.LivingAt(day).Count, share)) });
    }

    /// <summary>Of those dead since the last search, the share that is found.</summary>
    public void Dead(double day)
    {
        var dead = _vessel.Larvae.Count(larva => larva.DiedBetween(_lookedForDead, day));
        _lookedForDead = day;
        _rows.Add(new(day, "dead") { X = _dice.Binomial(dead, _eye.Dead) });
    }

    /// <summary>Living larvae given away, known to the number.</summary>
    public void Removed(double day, int wanted)
    {
        var taken = _dice.Pick(_vessel.LivingAt(day), wanted);
        foreach (var larva in taken)
        {
            larva.TakeOut(day);
        }

        if (taken.Count > 0)
        {
            _rows.Add(new(day, "removed") { X = taken.Count });
        }
    }

    /// <summary>Looked at and put back; two in a hundred are staged one off.</summary>
    public void Staged(double day, int wanted)
    {
        var sample = _dice.Pick(_vessel.LivingAt(day), wanted);
        var stages = new int[World.ZoealStages + 1];
        foreach (var larva in sample)
        {
            var stage = larva.StageAt(day);
            if (_dice.Chance(0.02))
            {
                stage = Math.Clamp(stage + (_dice.Chance(0.5) ? 1 : -1), 0, World.ZoealStages);
            }

            stages[stage]++;
        }

        if (sample.Count > 0)
        {
            _rows.Add(new(day, "stage") { N = sample.Count, Stages = stages });
        }
    }

    private double Rounded(double number) => _roundedTo * Math.Round(number / _roundedTo);
}
