using Broodtide.Units;

namespace Broodtide.Oracles.Chains;

/// <summary>A hidden Markov chain of a few states with the likelihood of what was seen at each moment.</summary>
public sealed class HiddenChain
{
    private const double SumTolerance = 1e-9;
    private readonly double[] _first;
    private readonly double[,] _transition;
    private readonly double[][] _likelihoods;

    /// <param name="first">Probability of each state at the first moment, before what was seen there.</param>
    /// <param name="transition">Probability to go from a state (row) to a state (column).</param>
    /// <param name="likelihoods">For each moment, the likelihood of what was seen there in each state.</param>
    /// <exception cref="ArgumentException">Shapes differ, or probabilities do not sum to one.</exception>
    public HiddenChain(
        IReadOnlyList<double> first,
        double[,] transition,
        IReadOnlyList<IReadOnlyList<double>> likelihoods
    )
    {
        _first = [.. first];
        _transition = transition;
        _likelihoods = [.. likelihoods.Select(row => row.ToArray())];
        SumsToOne(_first, nameof(first));
        if (transition.GetLength(0) != States || transition.GetLength(1) != States)
        {
            throw new ArgumentException("As many rows and columns as states are wanted.", nameof(transition));
        }

        for (var from = 0; from < States; from++)
        {
            SumsToOne(
                [.. Enumerable.Range(0, States).Select(to => transition[from, to])],
                nameof(transition)
            );
        }

        if (_likelihoods.Length == 0 || _likelihoods.Any(row => row.Length != States))
        {
            throw new ArgumentException(
                "Each moment needs a likelihood for each state.",
                nameof(likelihoods)
            );
        }
    }

    public int States => _first.Length;

    /// <summary>Rows of a square matrix, one after the other.</summary>
    /// <exception cref="ArgumentException">Not as many numbers as a square has.</exception>
    public static double[,] Square(IReadOnlyList<double> rows, int states)
    {
        if (rows.Count != states * states)
        {
            throw new ArgumentException($"{states * states} numbers are wanted, row by row.", nameof(rows));
        }

        var square = new double[states, states];
        for (var i = 0; i < rows.Count; i++)
        {
            square[i / states, i % states] = rows[i];
        }

        return square;
    }

    /// <summary>One step of the chain.</summary>
    public static double[] Moved(IReadOnlyList<double> from, double[,] transition)
    {
        var after = new double[from.Count];
        for (var i = 0; i < from.Count; i++)
        {
            for (var j = 0; j < from.Count; j++)
            {
                after[j] += from[i] * transition[i, j];
            }
        }

        return after;
    }

    /// <summary>Probability of each state at each moment, given what was seen up to it, and the log-likelihood, nat.</summary>
    public (IReadOnlyList<double[]> States, double LogLikelihood) Filter()
    {
        var filtered = new List<double[]>();
        var logLikelihood = 0.0;
        var ahead = _first;
        foreach (var likelihood in _likelihoods)
        {
            double[] now = [.. ahead.Select((probability, state) => probability * likelihood[state])];
            logLikelihood += Math.Log(Scaled(now));
            filtered.Add(now);
            ahead = Moved(now, _transition);
        }

        return (filtered, logLikelihood);
    }

    /// <summary>Probability of each state at each moment, given all that was seen.</summary>
    public IReadOnlyList<double[]> Smooth()
    {
        double[][] smoothed = [.. Filter().States.Select(row => row.ToArray())];
        var backward = Enumerable.Repeat(1.0, States).ToArray();
        for (var t = smoothed.Length - 2; t >= 0; t--)
        {
            var before = new double[States];
            for (var i = 0; i < States; i++)
            {
                for (var j = 0; j < States; j++)
                {
                    before[i] += _transition[i, j] * _likelihoods[t + 1][j] * backward[j];
                }
            }

            Scaled(before);
            backward = before;
            for (var i = 0; i < States; i++)
            {
                smoothed[t][i] *= backward[i];
            }

            Scaled(smoothed[t]);
        }

        return smoothed;
    }

    private static double Scaled(double[] row)
    {
        var sum = row.Sum();
        for (var i = 0; i < row.Length; i++)
        {
            row[i] /= sum;
        }

        return sum;
    }

    private static void SumsToOne(double[] probabilities, string name)
    {
        foreach (var probability in probabilities)
        {
            Finite.Within(probability, 0, 1, name);
        }

        if (Math.Abs(probabilities.Sum() - 1) > SumTolerance)
        {
            throw new ArgumentException("Probabilities must sum to one.", name);
        }
    }
}
