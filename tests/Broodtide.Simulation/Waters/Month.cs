using Broodtide.Simulation.Larvae;

namespace Broodtide.Simulation.Waters;

/// <summary>One line of an invented keeper's notes.</summary>
/// <param name="Day">Days since the vessel was filled.</param>
/// <param name="Kind">What was done or read; see <see cref="WatersCommand"/>.</param>
/// <param name="X">The first number.</param>
/// <param name="Y">The second number.</param>
public readonly record struct Note(double Day, string Kind, double X = double.NaN, double Y = double.NaN);

/// <summary>The truth of one hour.</summary>
public readonly record struct Truth(
    double Day,
    double UnionisedAmmonia,
    double Oxygen,
    double Nitrite,
    double Ph,
    double Celsius,
    double Salinity,
    double Ammonia,
    double CellsPerMl
);

/// <summary>Thirty days of one vessel: what happened, and what its keeper wrote.</summary>
public sealed class Month
{
    private const int Days = 30;
    private const int StepsPerHour = 30;
    private readonly List<Note> _notes = [];
    private readonly List<Truth> _truth = [];
    private readonly Dice _dice;
    private readonly Habits _habits;
    private readonly Jar _jar;
    private double _room = 23.5;
    private double _pumpBackOn = -1;

    public Month(ulong seed)
    {
        _dice = new Dice(seed);
        _habits = Habits.All[(int)(_dice.Even() * Habits.All.Count) % Habits.All.Count];
        _jar = new Jar(JarNature.Of(_dice)) { Air = _habits.Air };
    }

    public string Habit => _habits.Name;

    public IReadOnlyList<Note> Notes => _notes;

    public IReadOnlyList<Truth> Truth => _truth;

    /// <summary>Lives the month through.</summary>
    public void Live()
    {
        var litres = Math.Round(_dice.Between(3, 12), 1);
        var salinity = Math.Round(_dice.Between(28, 34), 0);
        _jar.Fill(litres, salinity);
        // A few come with any water.
        _jar.AmmoniaEaters = 1e-4 * _dice.LogNormal(1, 1.5);
        _jar.NitriteEaters = 4e-5 * _dice.LogNormal(1, 1.5);
        if (_dice.Chance(0.3))
        {
            _jar.AmmoniaEaters = _dice.Between(0.01, 0.05);
            _jar.NitriteEaters = _jar.AmmoniaEaters * _dice.Between(0.3, 0.8);
            Write(0, "filter");
        }

        _jar.Larvae = Math.Round(litres * _dice.Between(10, 40));
        Write(0, "filled", litres, salinity);
        Write(0, "light", _habits.LightHours, _habits.Brightness);
        Write(0, _habits.Air ? "air on" : "air off");
        Write(0.02, "larvae", _jar.Larvae);
        for (var day = 0; day < Days; day++)
        {
            Live(day, salinity);
        }
    }

    private void Live(int day, double salinity)
    {
        // Room air wanders from day to day; now and then there is a hot spell.
        _room += (0.25 * (24 - _room)) + (0.6 * _dice.Normal()) + (_dice.Chance(0.03) ? 3 : 0);
        for (var hour = 0; hour < 24; hour++)
        {
            var now = day + (hour / 24.0);
            if (hour == 8)
            {
                Morning(day, now);
            }
            else if (hour == 19)
            {
                Evening(day, now, salinity);
            }

            Pump(now);
            Hour(now, hour);
        }
    }

    private void Morning(int day, double now)
    {
        Write(now, "temperature", Math.Round(_jar.Celsius + (0.2 * _dice.Normal()), 1));
        Write(now + 0.001, "colour", Colour());
        if (day % 2 == 0)
        {
            Write(now + 0.002, "salinity", Math.Round(_jar.Salinity + (0.5 * _dice.Normal())));
        }

        if (_habits.AlgaeEveryDays > 0 && day % _habits.AlgaeEveryDays == 0)
        {
            // Of a culture that the keeper takes to hold one million cells a millilitre.
            var wanted = _habits.AlgaeWanted * _dice.LogNormal(1, 0.25);
            var missing = Math.Max(0, wanted - _jar.CellsPerMl);
            var millilitres = Math.Round(missing / 1e6 * _jar.Litres * 1000);
            if (millilitres > 0)
            {
                // As much water is taken out first.
                _jar.Change(millilitres / 1000 / _jar.Litres, _jar.Salinity);
                var dense = 1e6 * _dice.LogNormal(1, 0.2);
                _jar.AddAlgae(millilitres / 1000 * dense * 1000 / _jar.Litres * _jar.CarbonOfCellPg * 1e-9);
                Write(now + 0.003, "algae", millilitres, 1e6);
            }
        }

        Give(now + 0.004, "yeast", _habits.Yeast, 0.08);
        Give(now + 0.005, "powder", _habits.Powder, 0.075);
    }

    private void Give(double now, string kind, double dailyMgPerLitre, double nitrogen)
    {
        if (dailyMgPerLitre <= 0)
        {
            return;
        }

        var ration =
            dailyMgPerLitre * _jar.Litres * _dice.LogNormal(1, 0.25) * (_dice.Chance(_habits.Slips) ? 3 : 1);
        var written = Math.Max(1, Math.Round(ration * _dice.LogNormal(1, 0.1)));
        _jar.Feed(ration / _jar.Litres, nitrogen);
        Write(now, kind, written);
    }

    private void Evening(int day, double now, double salinity)
    {
        if (day > 0 && day % _habits.TestEveryDays == 0)
        {
            Write(now, "tan", Stepped(_jar.Ammonia * _dice.LogNormal(1, 0.15), 0.1));
            Write(now + 0.001, "ph", Math.Round(_jar.Ph + (0.08 * _dice.Normal()), 1));
            Write(now + 0.002, "nitrite", Stepped(_jar.Nitrite * _dice.LogNormal(1, 0.15), 0.05));
            if (_dice.Chance(0.3))
            {
                Write(
                    now + 0.003,
                    "oxygen",
                    Math.Round(Math.Max(0, _jar.Oxygen + (0.3 * _dice.Normal())), 1)
                );
            }
        }

        if (_habits.ChangeEveryDays > 0 && day > 0 && day % _habits.ChangeEveryDays == 0)
        {
            var litres = Math.Round(_habits.ChangedShare * _jar.Litres, 1);
            _jar.Change(litres / _jar.Litres, salinity);
            Write(now + 0.01, "changed", litres, salinity);
        }

        var lost = _jar.Litres * _dice.Between(0.004, 0.012);
        _jar.Evaporate(lost);
        if (day % 3 == 2)
        {
            var litres = Math.Round(3 * lost, 2);
            _jar.Dilute(litres);
            Write(now + 0.02, "topped up", litres);
        }

        var dead = _dice.Poisson(_jar.Larvae * 0.025);
        _jar.Larvae = Math.Max(0, _jar.Larvae - dead);
    }

    // The pump stops now and then and nobody sees it before the next visit.
    private void Pump(double now)
    {
        if (_habits.Air && _jar.Air && _dice.Chance(0.006 / 24))
        {
            _jar.Air = false;
            _pumpBackOn = now + _dice.Between(0.3, 1.0);
        }
        else if (_habits.Air && !_jar.Air && now >= _pumpBackOn)
        {
            _jar.Air = true;
            Write(now, "air on");
        }
    }

    private void Hour(double now, int hour)
    {
        var lit = hour >= 8 && hour < 8 + _habits.LightHours;
        var target = _room + (lit ? 1.2 : 0.2);
        for (var step = 0; step < StepsPerHour; step++)
        {
            _jar.Celsius += 0.004 * (target - _jar.Celsius);
            _jar.Step(lit ? _habits.Brightness : 0, 1);
        }

        _truth.Add(
            new(
                now + (1 / 24.0),
                _jar.UnionisedAmmonia,
                _jar.Oxygen,
                _jar.Nitrite,
                _jar.Ph,
                _jar.Celsius,
                _jar.Salinity,
                _jar.Ammonia,
                _jar.CellsPerMl
            )
        );
    }

    // 0 clear, 1 tinted, 2 green, 3 deep green.
    private double Colour() =>
        (_jar.CellsPerMl * _dice.LogNormal(1, 0.3)) switch
        {
            < 2e4 => 0,
            < 1e5 => 1,
            < 4e5 => 2,
            _ => 3,
        };

    private static double Stepped(double value, double step) =>
        Math.Round(Math.Round(value / step) * step, 3);

    private void Write(double day, string kind, double x = double.NaN, double y = double.NaN) =>
        _notes.Add(new(day, kind, x, y));
}
