"""The same by pandas: columns with their kinds and values.

    V/bin/pip install pandas==3.1.1 && V/bin/python tests/outside/table_pandas.py < TABLE.csv
"""

import sys

import pandas

table = pandas.read_csv(sys.stdin.buffer)
print(table.shape)
print(table.dtypes.to_string())
print(table.to_string())
