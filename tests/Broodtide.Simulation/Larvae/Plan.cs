namespace Broodtide.Simulation.Larvae;

/// <summary>Looks a keeper means to take, carried out in order of time.</summary>
public sealed class Plan
{
    private readonly Dice _dice;
    private readonly List<(double Day, Action<double> Look)> _looks = [];

    public Plan(Dice dice) => _dice = dice;

    /// <summary>Looks spread over a time: one at a chance moment of each of as many equal parts.</summary>
    public Plan Spread(int looks, double from, double until, Action<double> look)
    {
        for (var i = 0; i < looks; i++)
        {
            _looks.Add((Written(from + ((until - from) * (i + _dice.Even()) / looks)), look));
        }

        return this;
    }

    public void CarryOut()
    {
        foreach (var (day, look) in _looks.OrderBy(look => look.Day))
        {
            look(day);
        }
    }

    /// <summary>A time as it will stand in the file, so that file and life agree.</summary>
    public static double Written(double day) => Math.Round(day, 3);
}
