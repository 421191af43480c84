namespace Broodtide.Science.Imaging.Lengths;

/// <summary>Shortest ways from pixel to pixel within a thing (Dijkstra 1959, Numer. Math. 1:269), eight neighbours.</summary>
internal static class Ways
{
    /// <summary>The pixel to which the way is longest.</summary>
    public static int Farthest(byte[] marked, GridShape shape, int from)
    {
        var (costs, _) = From(marked, shape, from, _ => 1);
        var best = from;
        for (var i = 0; i < costs.Length; i++)
        {
            best = double.IsFinite(costs[i]) && costs[i] > costs[best] ? i : best;
        }

        return best;
    }

    /// <summary>The pixels of the cheapest way, in order.</summary>
    public static List<int> Between(byte[] marked, GridShape shape, int from, int to, Func<int, double> cost)
    {
        var (_, before) = From(marked, shape, from, cost);
        var way = new List<int> { to };
        while (way[^1] != from)
        {
            way.Add(before[way[^1]]);
        }

        way.Reverse();
        return way;
    }

    private static (double[] Costs, int[] Before) From(
        byte[] marked,
        GridShape shape,
        int from,
        Func<int, double> cost
    )
    {
        var (costs, before) = (new double[shape.Count], new int[shape.Count]);
        Array.Fill(costs, double.PositiveInfinity);
        costs[from] = 0;
        var open = new PriorityQueue<int, double>();
        open.Enqueue(from, 0);
        while (open.TryDequeue(out var at, out var spent))
        {
            if (spent > costs[at])
            {
                continue;
            }

            var (y, x) = Math.DivRem(at, shape.Across);
            for (var v = Math.Max(0, y - 1); v <= Math.Min(shape.Down - 1, y + 1); v++)
            {
                for (var u = Math.Max(0, x - 1); u <= Math.Min(shape.Across - 1, x + 1); u++)
                {
                    var next = (v * shape.Across) + u;
                    var reached = spent + (cost(next) * (u != x && v != y ? Math.Sqrt(2) : 1));
                    if (marked[next] != 0 && reached < costs[next])
                    {
                        costs[next] = reached;
                        before[next] = at;
                        open.Enqueue(next, reached);
                    }
                }
            }
        }

        return (costs, before);
    }
}
