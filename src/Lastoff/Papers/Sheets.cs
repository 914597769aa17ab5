using SkiaSharp;

namespace Lastoff.Papers;

/// <summary>Sheets that fill from the top, one after the other.</summary>
internal sealed class Sheets
{
    public const float Side = 16 * SheetSize.PointsInMillimetre;

    private const float Top = 16 * SheetSize.PointsInMillimetre;
    private const float Bottom = 20 * SheetSize.PointsInMillimetre;

    private readonly SheetSize _size;
    private readonly Action<SKCanvas> _running;
    private readonly float _runningHeight;
    private readonly List<List<Action<SKCanvas>>> _drawn = [[]];

    /// <param name="running">Drawn on top of every sheet after the first.</param>
    public Sheets(SheetSize size, Action<SKCanvas> running, float runningHeight) =>
        (_size, _running, _runningHeight, Y) = (size, running, runningHeight, Top);

    public float Width => _size.Width - 2 * Side;
    public float Y { get; private set; }
    public float Left => _size.Height - Bottom - Y;
    /// <summary>What a sheet after the first has room for.</summary>
    public float Whole => _size.Height - Bottom - Top - _runningHeight;
    public int Count => _drawn.Count;

    /// <summary>Where the line at the foot of a sheet goes.</summary>
    public float Foot => _size.Height - Bottom + 5 * SheetSize.PointsInMillimetre;

    public void Draw(float height, Action<SKCanvas, float> draw)
    {
        var y = Y;
        _drawn[^1].Add(canvas => draw(canvas, y));
        Y += height;
    }

    public void Skip(float height) => Y += height;

    public void Next()
    {
        _drawn.Add([_running]);
        Y = Top + _runningHeight;
    }

    /// <summary>Goes on to the next sheet when there is less room than this, unless a whole sheet has less too.</summary>
    public bool NextUnless(float height)
    {
        if (height <= Left || Y <= Top + _runningHeight)
        {
            return false;
        }

        Next();
        return true;
    }

    /// <param name="foot">Draws the foot of a sheet by its number from 1.</param>
    public void Write(SKDocument document, Action<SKCanvas, int> foot)
    {
        foreach (var (number, sheet) in _drawn.Index())
        {
            var canvas = document.BeginPage(_size.Width, _size.Height);
            foreach (var draw in sheet)
            {
                draw(canvas);
            }

            foot(canvas, number + 1);
            document.EndPage();
        }
    }
}
