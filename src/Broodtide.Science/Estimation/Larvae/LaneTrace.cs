using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>What a way forward leaves behind for the way back, one supposition a lane; and the way back.</summary>
/// <remarks>See <see cref="LarvalPass.Backward"/>, which is the twin for one supposition.</remarks>
internal sealed class LaneTrace
{
    private readonly LarvalProgram _program;
    private readonly LaneAdjoint _adjoint;
    private readonly int _cells;
    private readonly int _size;
    private readonly int _triangle;

    // Steps after which nobody had died since the step before need nothing on the way back.
    private readonly bool[] _thinned;
    private readonly Lane[] _survival;
    private readonly Lane[] _gains;
    private readonly LaneTold[] _told;
    private readonly Lane[] _means;
    private readonly Lane[] _covariances;

    internal LaneTrace(LarvalProgram program)
    {
        _program = program;
        _cells = program.CellCount;
        _size = _cells + 2;
        _triangle = _size * (_size + 1) / 2;
        _adjoint = new(_size);
        var steps = program.Steps.Length;
        _thinned = new bool[steps];
        _survival = new Lane[steps * _cells];
        _gains = new Lane[steps * _size];
        _told = new LaneTold[steps];
        _means = new Lane[program.Tellings * _size];
        _covariances = new Lane[program.Tellings * _triangle];
    }

    /// <summary>Nobody has died at a step so far.</summary>
    internal void NotThinned(int s) => _thinned[s] = false;

    /// <summary>Survival since the step before; a second one at the same step comes on top.</summary>
    internal void Thinned(int s, ReadOnlySpan<Lane> survival)
    {
        var kept = _survival.AsSpan(s * _cells, _cells);
        for (var c = 0; c < _cells; c++)
        {
            kept[c] = _thinned[s] ? kept[c] * survival[c] : survival[c];
        }

        _thinned[s] = true;
    }

    internal void NothingTold(int s) => _told[s] = default;

    internal void Told(int s, ReadOnlySpan<Lane> gain, in LaneTold told)
    {
        gain.CopyTo(_gains.AsSpan(s * _size));
        _told[s] = told;
    }

    internal void Tell(int telling, ReadOnlySpan<Lane> mean, ReadOnlySpan<Lane> covariance)
    {
        mean.CopyTo(_means.AsSpan(telling * _size));
        covariance.CopyTo(_covariances.AsSpan(telling * _triangle));
    }

    /// <summary>Goes back from the last step to the first telling, so that every telling knows all entries.</summary>
    internal void Backward(LaneTotals totals)
    {
        _adjoint.Clear();
        var left = _program.Tellings;
        for (var s = _program.Steps.Length - 1; s >= 0 && left > 0; s--)
        {
            var step = _program.Steps[s];
            switch (step.Kind)
            {
                case StepKind.Count or StepKind.MoveNumber:
                    _adjoint.Told(step.Cells, ever: 0, _gains.AsSpan(s * _size, _size), _told[s]);
                    break;
                case StepKind.DeadFound:
                    _adjoint.Told(_program.Run.All, ever: -1, _gains.AsSpan(s * _size, _size), _told[s]);
                    break;
                case StepKind.Arrive when step.SharedErrorCv > 0:
                    _adjoint.Arrived(step.To, step.Number);
                    break;
                case StepKind.MoveShare:
                    _adjoint.Moved(step.From, step.To, step.Share);
                    break;
                case StepKind.Tell:
                    left--;
                    totals.Take(
                        step.Telling,
                        _means.AsSpan(step.Telling * _size, _size),
                        _covariances.AsSpan(step.Telling * _triangle, _triangle),
                        _adjoint
                    );
                    break;
                default:
                    break;
            }

            if (_thinned[s])
            {
                _adjoint.Thinned(_survival.AsSpan(s * _cells, _cells));
            }
        }
    }
}
